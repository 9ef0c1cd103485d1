#pragma once

#include <QWidget>

#include "app/panels/way/way_axis.h"

namespace swingroom {

/// Under the rows, while the way is seen close up: the whole way as a thin line with its beads, and
/// on it the part that is seen, which can be dragged. A double click shows the whole way again.
class WayOverview : public QWidget {
  Q_OBJECT

 public:
  explicit WayOverview(QWidget* parent = nullptr);

  void setAxis(const WayAxis& axis);
  void setSteps(std::size_t steps);
  void setInstant(double instant);
  /// The part that is seen.
  QRectF thumb() const;

 Q_SIGNALS:
  /// The first instant that is to be seen.
  void panWanted(double from);
  void wholeWanted();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  WayAxis whole() const { return {axis_.left, axis_.width}; }

  WayAxis axis_;
  std::size_t steps_ = 0;
  double instant_ = 0;
  std::optional<double> grip_;  ///< While it is dragged: from the thumb's left to the pointer, px.
};

}  // namespace swingroom
