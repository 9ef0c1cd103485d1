#pragma once

#include <QWidget>

#include "app/models/way_line.h"
#include "app/panels/way/way_axis.h"

namespace swingroom {

/// The line from mode to mode: stations at its ends, a bead between two steps, the steps' names
/// under their stretches, the diamond of the needle. Part of WayRibbon, which gives it the axis.
class LineOfSteps : public QWidget {
  Q_OBJECT

 public:
  explicit LineOfSteps(QWidget* parent = nullptr);

  void setWay(const WayLine& way);
  void setAxis(const WayAxis& axis);
  void setInstant(double instant);

  QSize sizeHint() const override;

  /// The texts under the line with their places; empty ones are left out. For tests and painting.
  struct StepLabel {
    QString text;
    QRectF rect;
    bool present = false;  ///< Of the step that the needle stands in.
    std::size_t step = 0;
  };
  std::vector<StepLabel> stepLabels() const;
  std::size_t steps() const { return static_cast<std::size_t>(way_.steps.size()); }
  /// Without its number.
  QString nameOf(std::size_t step) const { return way_.steps.value(int(step)); }
  const WayAxis& axis() const { return axis_; }
  double lineY() const;
  QRectF modeNameRect(bool atEnd) const;

 Q_SIGNALS:
  void instantWanted(double instant);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void changeEvent(QEvent* event) override;
  bool event(QEvent* event) override;

 private:
  QString stepName(std::size_t step) const;
  bool namesFit() const;
  void paintLine(QPainter& painter) const;
  void paintCutEnds(QPainter& painter) const;
  void paintStations(QPainter& painter) const;
  void paintModeNames(QPainter& painter) const;
  void paintNames(QPainter& painter) const;
  void paintNeedle(QPainter& painter) const;
  QString tooltipAt(const QPointF& place) const;
  void scrubTo(const QMouseEvent& event);

  WayLine way_;
  WayAxis axis_;
  double instant_ = 0;
  bool dragging_ = false;
};

}  // namespace swingroom
