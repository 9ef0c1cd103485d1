#pragma once

#include <QAbstractScrollArea>
#include <functional>
#include <optional>
#include <utility>

#include "app/models/ribbon_lines.h"
#include "app/models/way_line.h"
#include "app/panels/way/way_axis.h"

namespace swingroom {

using PartPair = std::pair<PartId, PartId>;

/// The gap ribbon's rows under the line: labels at the left, runs on the axis, the needle through
/// them. Only rows that are seen are painted. Part of WayRibbon, which gives it the axis.
class GapRows : public QAbstractScrollArea {
  Q_OBJECT

 public:
  static constexpr int kRowHeight = 18;
  /// What is said of the gap of a pair at an instant; empty: not known.
  using GapThere = std::function<QString(PartId, PartId, double)>;

  explicit GapRows(QWidget* parent = nullptr);

  void setWay(const WayLine& way);
  void setRibbon(const Ribbon& ribbon);
  void setByPart(bool byPart);
  void setOpen(PartId part, bool open);
  void setAllOpen(bool open);
  void setAxis(const WayAxis& axis);
  void setInstant(double instant);
  /// A pair, or a part alone, or nothing.
  void setChosen(const std::optional<PartPair>& pair, const std::optional<PartId>& part);
  /// What stands beside the needle in the chosen row: "0.34 mm".
  void setFigureNow(const QString& figure);
  void setGapThere(GapThere gapThere) { gapThere_ = std::move(gapThere); }

  const RibbonLines& lines() const { return lines_; }
  const Ribbon& ribbon() const { return lines_.ribbon(); }
  std::size_t rowCount() const { return lines_.lines().size(); }
  /// In the coordinates of the viewport; may lie outside of it.
  QRectF cellRect(std::size_t row) const;
  std::optional<std::size_t> chosenRow() const { return chosenRow_; }
  void scrollToRow(std::size_t row);
  /// Wishes for what the row is of: its pair at its worst place, or its part.
  void wishFor(std::size_t row);
  /// Text of the tooltip at a place of the viewport.
  QString tooltipAt(const QPointF& place) const;
  /// The row in words: "arm_left, funnel: clash, 1.24 mm deep at step 3".
  QString rowText(std::size_t row) const;
  /// How many rows the last painting touched; for tests.
  std::size_t lastRowsPainted() const { return lastRowsPainted_; }

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 Q_SIGNALS:
  void instantWanted(double instant);
  void pairWanted(PartId a, PartId b, double instant);
  void partWanted(PartId part);
  /// Parts were opened or folded.
  void folded();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void changeEvent(QEvent* event) override;
  bool viewportEvent(QEvent* event) override;

 private:
  void showLines();
  void findChosen();
  bool isInSight(std::size_t row) const;
  void fitScrollBar();
  void setHovered(std::optional<std::size_t> row);
  std::optional<std::size_t> rowAt(double y) const;
  const RibbonRow* pairIn(std::size_t row) const;
  const RibbonPart* partIn(std::size_t row) const;
  void pressCell(std::size_t row, double instant);
  WayAxis cellAxis(const QRectF& cell) const;
  QString stepText(double instant) const;

  void paintRow(QPainter& painter, std::size_t row, const QRectF& exposed) const;
  void paintRuns(QPainter& painter, const std::vector<RibbonRun>& runs, const QRectF& cell,
                 const QRectF& exposed) const;
  void paintOutline(QPainter& painter, const QRectF& cell) const;
  void paintLabel(QPainter& painter, std::size_t row) const;
  void paintPairLabel(QPainter& painter, std::size_t row) const;
  void paintPartLabel(QPainter& painter, std::size_t row) const;
  void paintCountRow(QPainter& painter, std::size_t row, const QRectF& exposed) const;
  void paintFigureNow(QPainter& painter) const;
  QRectF labelRect(std::size_t row) const;
  QRectF figureNowRect() const;
  QString countText(std::size_t row, bool brief) const;

  WayLine way_;
  RibbonLines lines_;
  WayAxis axis_;
  double instant_ = 0;
  std::optional<PartPair> chosen_;
  std::optional<PartId> chosenPart_;
  std::optional<PartId> under_;  ///< The part whose row of the chosen pair is meant.
  std::optional<std::size_t> chosenRow_;
  std::optional<std::size_t> hovered_;
  QString figureNow_;
  GapThere gapThere_;
  bool follows_ = false;  ///< Another way is shown: the chosen row is brought into sight with it.
  bool dragging_ = false;
  std::size_t lastRowsPainted_ = 0;
};

}  // namespace swingroom
