#pragma once

#include <QAbstractScrollArea>
#include <optional>
#include <utility>

#include "app/models/ribbon_row.h"
#include "app/models/way_line.h"
#include "app/panels/way_axis.h"

namespace swingroom {

using PartPair = std::pair<PartId, PartId>;

/// Where to look first in a row: the first clash, else tight, loose or unproven run, else the
/// nearest gap. None if no place differs from the others.
std::optional<double> worstInstant(const RibbonRow& row);

/// The gap ribbon's rows under the line: labels at the left, runs on the axis, the needle through
/// them. Only rows that are seen are painted. Part of WayRibbon, which gives it the axis.
class GapRows : public QAbstractScrollArea {
  Q_OBJECT

 public:
  static constexpr int kRowHeight = 18;

  explicit GapRows(QWidget* parent = nullptr);

  void setWay(const WayLine& way);
  void setRibbon(const Ribbon& ribbon);
  void setAxis(const WayAxis& axis);
  void setInstant(double instant);
  void setChosen(const std::optional<PartPair>& chosen);

  const Ribbon& ribbon() const { return ribbon_; }
  /// Pairs, then one row each for the far and the waiting ones if there are any.
  std::size_t rowCount() const;
  /// In the coordinates of the viewport; may lie outside of it.
  QRectF cellRect(std::size_t row) const;
  std::optional<std::size_t> chosenRow() const;
  void scrollToRow(std::size_t row);
  /// Text of the tooltip at a place of the viewport.
  QString tooltipAt(const QPointF& place) const;
  /// How many rows the last painting touched; for tests.
  std::size_t lastRowsPainted() const { return lastRowsPainted_; }

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 Q_SIGNALS:
  void instantWanted(double instant);
  void pairWanted(PartId a, PartId b, double instant);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void changeEvent(QEvent* event) override;
  bool viewportEvent(QEvent* event) override;

 private:
  void fitScrollBar();
  void setHovered(std::optional<std::size_t> row);
  std::optional<std::size_t> pairRowAt(double y) const;
  void paintRow(QPainter& painter, std::size_t row, const QRectF& exposed) const;
  void paintLabel(QPainter& painter, std::size_t row) const;
  void paintCountRow(QPainter& painter, std::size_t row, const QRectF& exposed) const;
  QRectF labelRect(std::size_t row) const;

  WayLine way_;
  Ribbon ribbon_;
  WayAxis axis_;
  double instant_ = 0;
  std::optional<PartPair> chosen_;
  std::optional<std::size_t> hovered_;
  bool dragging_ = false;
  std::size_t lastRowsPainted_ = 0;
};

}  // namespace swingroom
