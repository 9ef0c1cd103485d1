#pragma once

#include <QFrame>
#include <QLabel>
#include <QTimer>
#include <QVBoxLayout>

#include "app/models/history/change_lines.h"

namespace swingroom {

/// What the last save has turned, on a card over the view. Good news leaves after a while; what is
/// worse stays until it is closed or something newer is told.
class NewsCard : public QFrame {
  Q_OBJECT

 public:
  /// @param over  What it lies on.
  explicit NewsCard(QWidget& over);

  /// In place of what was told before.
  void tell(const ChangeStory& story);
  /// All that it says, a line each.
  QString text() const;

 Q_SIGNALS:
  void lineClicked(const ChangeLine& line);
  void historyWanted();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void enterEvent(QEnterEvent* event) override;
  void leaveEvent(QEvent* event) override;

 private:
  void addLines(const ChangeStory& story);
  void place();

  QWidget& over_;
  QLabel* heading_;
  QLabel* summary_;
  QWidget* lines_ = nullptr;
  QVBoxLayout* column_;
  QTimer leave_;
  bool stays_ = false;
};

}  // namespace swingroom
