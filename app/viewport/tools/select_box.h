#pragma once

#include <QColor>
#include <QWidget>

namespace swingroom {

/// The box that a drag draws over the view. Takes no mouse and no focus.
class SelectBox : public QWidget {
  Q_OBJECT

 public:
  explicit SelectBox(QWidget* parent);

  void setColour(const QColor& colour);
  /// Between two places of the parent, shown.
  void draw(const QPointF& from, const QPointF& to);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QColor colour_{0x00, 0x72, 0xB2};
};

}  // namespace swingroom
