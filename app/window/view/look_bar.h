#pragma once

#include <QFrame>

#include "app/viewport/viewport.h"

class QLabel;
class QPushButton;

namespace swingroom {

/// A small card in the view's corner: from where to look. In a narrow view one button with a menu.
/// Beside it, in the other corner, how far the bed's lines are apart.
class LookBar : public QFrame {
  Q_OBJECT

 public:
  explicit LookBar(Viewport& view);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void fold();
  void showScale();

  Viewport& view_;
  QWidget* row_;         ///< The word and a button for each side.
  QPushButton* folded_;  ///< In its place.
  QLabel* scale_;
  double shownMm_ = 0;
};

}  // namespace swingroom
