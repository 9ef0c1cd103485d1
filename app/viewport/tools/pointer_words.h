#pragma once

#include <QPointF>
#include <QString>

class QLabel;
class QWidget;

namespace swingroom {

/// A small card with words beside the pointer. The mouse does not notice it.
class PointerWords {
 public:
  /// @param view  What the pointer is over; owns the card.
  explicit PointerWords(QWidget& view);

  /// Empty: hides the card.
  void show(const QString& words);
  /// Empty while it is hidden.
  QString shown() const;
  /// Beside the pointer, on the side with more room.
  void moveTo(const QPointF& pointer);

 private:
  QWidget& view_;
  QPointF pointer_;
  QLabel* label_;
};

}  // namespace swingroom
