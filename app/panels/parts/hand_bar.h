#pragma once

#include <QFrame>

#include "app/session/motion_editor.h"

class QPushButton;
class QLabel;

namespace swingroom {

/// While joints stand as a hand has put them: what can be made of that. Floats at the lower edge of
/// the view, so that nothing else moves.
class HandBar : public QFrame {
  Q_OBJECT

 public:
  /// @param over  What it floats on.
  HandBar(MotionEditor& editor, QWidget& over);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void refresh();
  void place();

  MotionEditor& editor_;
  QWidget& over_;
  QLabel* words_;
  QPushButton* newStep_;
  QPushButton* endHere_;
};

}  // namespace swingroom
