#include "app/panels/gap_rows.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QScrollBar>
#include <QToolTip>
#include <algorithm>
#include <cmath>

#include "app/panels/marks.h"
#include "app/panels/needle.h"

namespace swingroom {
namespace {

constexpr double kStandingPx = 160;

}  // namespace

std::optional<double> worstInstant(const RibbonRow& row) {
  for (const RibbonTone tone :
       {RibbonTone::clash, RibbonTone::tight, RibbonTone::loose, RibbonTone::unproven}) {
    for (const RibbonRun& run : row.runs) {
      if (run.tone != tone || (run.from <= 0 && run.to >= 1)) continue;
      // What is loose is so in a mode: there, not near it.
      if (tone == RibbonTone::loose && run.from <= 0) return 0.0;
      if (tone == RibbonTone::loose && run.to >= 1) return 1.0;
      return (run.from + run.to) / 2;
    }
  }
  const RibbonRun* nearest = nullptr;
  for (const RibbonRun& run : row.runs) {
    if (run.tone != RibbonTone::gap || run.nearness <= 0) continue;
    if (!nearest || run.nearness > nearest->nearness) nearest = &run;
  }
  if (!nearest || (nearest->from <= 0 && nearest->to >= 1)) return std::nullopt;
  return (nearest->from + nearest->to) / 2;
}

GapRows::GapRows(QWidget* parent) : QAbstractScrollArea(parent) {
  setFrameShape(QFrame::NoFrame);
  setFocusPolicy(Qt::NoFocus);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  verticalScrollBar()->setSingleStep(kRowHeight);
  viewport()->setMouseTracking(true);
  viewport()->setAutoFillBackground(false);
}

void GapRows::setWay(const WayLine& way) {
  way_ = way;
  viewport()->update();
}

void GapRows::setRibbon(const Ribbon& ribbon) {
  ribbon_ = ribbon;
  hovered_.reset();
  fitScrollBar();
  updateGeometry();
  viewport()->update();
}

void GapRows::setAxis(const WayAxis& axis) {
  axis_ = axis;
  viewport()->update();
}

void GapRows::setInstant(double instant) {
  for (const double each : {instant_, instant}) {
    const int left = static_cast<int>(std::floor(axis_.xAt(each) - kNeedleReachPx));
    viewport()->update(left, 0, static_cast<int>(2 * kNeedleReachPx) + 2, viewport()->height());
  }
  instant_ = instant;
}

void GapRows::setChosen(const std::optional<PartPair>& chosen) {
  chosen_ = chosen;
  if (const auto row = chosenRow()) scrollToRow(*row);
  viewport()->update();
}

std::size_t GapRows::rowCount() const {
  return ribbon_.rows.size() + (ribbon_.farPairs > 0 ? 1 : 0) + (ribbon_.waiting > 0 ? 1 : 0);
}

QRectF GapRows::cellRect(std::size_t row) const {
  const double top = static_cast<double>(row) * kRowHeight - verticalScrollBar()->value();
  // Of a mode on its own there is nothing across: a short bar, its figure beside it.
  const double width = way_.standsStill ? std::min(kStandingPx, axis_.width) : axis_.width;
  return {axis_.left, top + 1.5, width, kRowHeight - 3.0};
}

std::optional<std::size_t> GapRows::chosenRow() const {
  if (!chosen_) return std::nullopt;
  for (std::size_t r = 0; r < ribbon_.rows.size(); ++r) {
    const RibbonRow& row = ribbon_.rows[r];
    if (PartPair(row.a, row.b) == *chosen_ || PartPair(row.b, row.a) == *chosen_) return r;
  }
  return std::nullopt;
}

void GapRows::scrollToRow(std::size_t row) {
  const int top = static_cast<int>(row) * kRowHeight, bottom = top + kRowHeight;
  QScrollBar* bar = verticalScrollBar();
  if (top < bar->value()) bar->setValue(top);
  if (bottom > bar->value() + viewport()->height()) bar->setValue(bottom - viewport()->height());
}

QSize GapRows::sizeHint() const {
  return {600, static_cast<int>(std::clamp<std::size_t>(rowCount(), 4, 12)) * kRowHeight};
}

QSize GapRows::minimumSizeHint() const {
  return {200, 2 * kRowHeight};
}

void GapRows::fitScrollBar() {
  const int whole = static_cast<int>(rowCount()) * kRowHeight;
  const int seen = viewport()->height();
  verticalScrollBar()->setPageStep(seen);
  verticalScrollBar()->setRange(0, std::max(0, whole - seen));
}

void GapRows::resizeEvent(QResizeEvent* event) {
  fitScrollBar();
  QAbstractScrollArea::resizeEvent(event);
}

std::optional<std::size_t> GapRows::pairRowAt(double y) const {
  const double place = (y + verticalScrollBar()->value()) / kRowHeight;
  if (place < 0 || place >= static_cast<double>(ribbon_.rows.size())) return std::nullopt;
  return static_cast<std::size_t>(place);
}

void GapRows::setHovered(std::optional<std::size_t> row) {
  if (row == hovered_) return;
  hovered_ = row;
  viewport()->update(0, 0, static_cast<int>(axis_.left), viewport()->height());
}

void GapRows::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return event->ignore();
  const double x = event->position().x();
  const auto row = pairRowAt(event->position().y());
  const bool onCells = x >= axis_.left && x <= axis_.right();
  dragging_ = onCells && !way_.standsStill;
  if (row && x <= axis_.right()) {
    const RibbonRow& pair = ribbon_.rows[*row];
    const double instant = dragging_ ? axis_.instantAt(x) : worstInstant(pair).value_or(instant_);
    Q_EMIT pairWanted(pair.a, pair.b, instant);
  } else if (dragging_) {
    Q_EMIT instantWanted(axis_.instantAt(x));
  }
}

void GapRows::mouseMoveEvent(QMouseEvent* event) {
  const double x = event->position().x();
  if (dragging_) {
    const bool free = event->modifiers() & Qt::AltModifier;
    const auto steps = static_cast<std::size_t>(way_.steps.size());
    Q_EMIT instantWanted(free ? axis_.instantAt(x) : snappedInstant(axis_, x, steps));
    return;
  }
  const auto row = pairRowAt(event->position().y());
  viewport()->setCursor(row && x <= axis_.right() ? Qt::PointingHandCursor : Qt::ArrowCursor);
  setHovered(x < axis_.left ? row : std::nullopt);
}

void GapRows::mouseReleaseEvent(QMouseEvent*) {
  dragging_ = false;
}

void GapRows::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::PaletteChange) {
    viewport()->update();
  }
  QAbstractScrollArea::changeEvent(event);
}

QString GapRows::tooltipAt(const QPointF& place) const {
  const auto row = pairRowAt(place.y());
  if (!row || place.x() > axis_.right()) return {};
  const RibbonRow& pair = ribbon_.rows[*row];
  QString text = pair.names + QLatin1Char('\n');
  text += pair.verdict ? verdictWord(*pair.verdict) : tr("not yet checked");
  if (!pair.figure.isEmpty()) text += QStringLiteral(", ") + pair.figure;
  if (place.x() < axis_.left || way_.standsStill || way_.steps.isEmpty()) return text;
  const double instant = axis_.instantAt(place.x());
  const std::size_t step = stepAt(instant, static_cast<std::size_t>(way_.steps.size()));
  return text + QLatin1Char('\n') +
         tr("step %1, %2, instant %3")
             .arg(step + 1)
             .arg(way_.steps.at(static_cast<int>(step)))
             .arg(instant, 0, 'f', 2);
}

bool GapRows::viewportEvent(QEvent* event) {
  if (event->type() == QEvent::ToolTip) {
    const auto* help = static_cast<QHelpEvent*>(event);
    QToolTip::showText(help->globalPos(), tooltipAt(help->pos()), viewport());
    return true;
  }
  if (event->type() == QEvent::Leave) setHovered(std::nullopt);
  return QAbstractScrollArea::viewportEvent(event);
}

}  // namespace swingroom
