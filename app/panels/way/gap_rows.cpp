#include "app/panels/way/gap_rows.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QScrollBar>
#include <QToolTip>
#include <algorithm>
#include <cmath>

#include "app/panels/marks.h"
#include "app/panels/way/gap_rows_access.h"
#include "app/panels/way/needle.h"

namespace swingroom {
namespace {

constexpr double kStandingPx = 160;
/// The triangle that opens a part, from the left.
constexpr double kTriangleRoom = 30;

}  // namespace

GapRows::GapRows(QWidget* parent) : QAbstractScrollArea(parent) {
  installRowAccess();
  setFrameShape(QFrame::NoFrame);
  setFocusPolicy(Qt::NoFocus);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  verticalScrollBar()->setSingleStep(kRowHeight);
  viewport()->setMouseTracking(true);
  viewport()->setAutoFillBackground(false);
  setAccessibleName(tr("Rows of the gap ribbon"));
}

void GapRows::setWay(const WayLine& way) {
  if (way != way_) follows_ = true;
  way_ = way;
  viewport()->update();
}

void GapRows::setRibbon(const Ribbon& ribbon) {
  if (ribbon != lines_.ribbon()) {
    // Results that come while somebody scrolls elsewhere must not jump back to the chosen row.
    const bool stays = chosenRow_ && isInSight(*chosenRow_);
    lines_.setRibbon(ribbon);
    showLines();
    if (chosenRow_ && (stays || follows_)) scrollToRow(*chosenRow_);
  }
  follows_ = false;
}

bool GapRows::isInSight(std::size_t row) const {
  const QRectF cell = cellRect(row);
  return cell.bottom() > 0 && cell.top() < viewport()->height();
}

void GapRows::setByPart(bool byPart) {
  if (byPart == lines_.isByPart()) return;
  lines_.setByPart(byPart);
  showLines();
  if (chosenRow_) scrollToRow(*chosenRow_);
}

void GapRows::setOpen(PartId part, bool open) {
  lines_.setOpen(part, open);
  showLines();
  Q_EMIT folded();
}

void GapRows::setAllOpen(bool open) {
  lines_.setAllOpen(open);
  showLines();
  if (chosenRow_) scrollToRow(*chosenRow_);
  Q_EMIT folded();
}

void GapRows::showLines() {
  hovered_.reset();
  findChosen();
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
  viewport()->update(figureNowRect().toAlignedRect());
  instant_ = instant;
  viewport()->update(figureNowRect().toAlignedRect());
}

void GapRows::setFigureNow(const QString& figure) {
  if (figure == figureNow_) return;
  viewport()->update(figureNowRect().toAlignedRect());
  figureNow_ = figure;
  viewport()->update(figureNowRect().toAlignedRect());
}

void GapRows::setChosen(const std::optional<PartPair>& pair, const std::optional<PartId>& part) {
  if (pair == chosen_ && part == chosenPart_) return;
  if (pair != chosen_) setFigureNow({});
  chosen_ = pair;
  chosenPart_ = part;
  const auto before = chosenRow_;
  findChosen();
  if (chosenRow_) scrollToRow(*chosenRow_);
  if (chosenRow_ && chosenRow_ != before) tellChosenRow(*this);
  viewport()->update();
}

void GapRows::findChosen() {
  chosenRow_.reset();
  if (chosen_) chosenRow_ = lines_.lineOf(chosen_->first, chosen_->second, under_);
  if (!chosen_ && chosenPart_) chosenRow_ = lines_.lineOf(*chosenPart_);
}

const RibbonRow* GapRows::pairIn(std::size_t row) const {
  const RibbonLine& line = lines_.lines().at(row);
  return line.kind == RibbonLine::Kind::pair ? &ribbon().rows[line.index] : nullptr;
}

const RibbonPart* GapRows::partIn(std::size_t row) const {
  const RibbonLine& line = lines_.lines().at(row);
  return line.kind == RibbonLine::Kind::part ? &lines_.parts()[line.index] : nullptr;
}

QRectF GapRows::cellRect(std::size_t row) const {
  const double top = static_cast<double>(row) * kRowHeight - verticalScrollBar()->value();
  // Of a mode on its own there is nothing across: a short bar, its figure beside it.
  const double width = way_.standsStill ? std::min(kStandingPx, axis_.width) : axis_.width;
  return {axis_.left, top + 1.5, width, kRowHeight - 3.0};
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
  const QRectF cell = chosenRow_ ? cellRect(*chosenRow_) : QRectF();
  const bool stays = chosenRow_ && cell.bottom() > 0 && cell.top() < event->oldSize().height();
  fitScrollBar();
  if (stays) scrollToRow(*chosenRow_);
  QAbstractScrollArea::resizeEvent(event);
}

/// A row of a pair or a part.
std::optional<std::size_t> GapRows::rowAt(double y) const {
  const double place = (y + verticalScrollBar()->value()) / kRowHeight;
  if (place < 0 || place >= static_cast<double>(rowCount())) return std::nullopt;
  const auto row = static_cast<std::size_t>(place);
  return pairIn(row) || partIn(row) ? std::optional(row) : std::nullopt;
}

void GapRows::setHovered(std::optional<std::size_t> row) {
  if (row == hovered_) return;
  hovered_ = row;
  viewport()->update(0, 0, static_cast<int>(axis_.left), viewport()->height());
}

void GapRows::wishFor(std::size_t row) {
  if (const RibbonPart* part = partIn(row)) {
    under_ = part->part;
    Q_EMIT partWanted(part->part);
  }
  if (const RibbonRow* pair = pairIn(row)) {
    const auto& under = lines_.lines()[row].under;
    under_ = under ? std::optional(lines_.parts()[*under].part) : std::nullopt;
    Q_EMIT pairWanted(pair->a, pair->b, worstInstant(*pair).value_or(instant_));
  }
}

/// Of a part's row the pair is the one whose tone it shows there.
void GapRows::pressCell(std::size_t row, double instant) {
  const RibbonLine line = lines_.lines()[row];
  const RibbonPart* part = partIn(row);
  if (part || line.under) under_ = part ? part->part : lines_.parts()[*line.under].part;
  const RibbonRow& pair =
      part ? ribbon().rows[worstPairAt(ribbon(), *part, instant)] : *pairIn(row);
  Q_EMIT pairWanted(pair.a, pair.b, instant);
}

void GapRows::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return event->ignore();
  const double x = event->position().x();
  const auto row = rowAt(event->position().y());
  const bool onCells = x >= axis_.left && x <= axis_.right();
  dragging_ = onCells && !way_.standsStill;
  if (!row || x > axis_.right()) {
    if (dragging_) Q_EMIT instantWanted(axis_.instantAt(x));
    return;
  }
  if (onCells && (dragging_ || partIn(*row))) {
    return pressCell(*row, dragging_ ? axis_.instantAt(x) : instant_);
  }
  const RibbonPart* part = partIn(*row);
  if (part && x < kTriangleRoom) return setOpen(part->part, !lines_.isOpen(part->part));
  wishFor(*row);
}

void GapRows::mouseDoubleClickEvent(QMouseEvent* event) {
  const auto row = rowAt(event->position().y());
  const RibbonPart* part = row ? partIn(*row) : nullptr;
  const double x = event->position().x();
  if (!part || x < kTriangleRoom || x >= axis_.left) return mousePressEvent(event);
  setOpen(part->part, !lines_.isOpen(part->part));
}

void GapRows::mouseMoveEvent(QMouseEvent* event) {
  const double x = event->position().x();
  if (dragging_) {
    const bool free = event->modifiers() & Qt::AltModifier;
    const auto steps = static_cast<std::size_t>(way_.steps.size());
    Q_EMIT instantWanted(free ? axis_.instantAt(x) : snappedInstant(axis_, x, steps));
    return;
  }
  const auto row = rowAt(event->position().y());
  viewport()->setCursor(row && x <= axis_.right() ? Qt::PointingHandCursor : Qt::ArrowCursor);
  setHovered(x < axis_.left ? row : std::nullopt);
}

void GapRows::mouseReleaseEvent(QMouseEvent*) {
  dragging_ = false;
}

void GapRows::wheelEvent(QWheelEvent* event) {
  // Closer and farther, and to the side, is for the whole ribbon.
  const QPoint turned = event->angleDelta();
  const bool aside = std::abs(turned.x()) > std::abs(turned.y());
  if (aside || event->modifiers() & (Qt::ControlModifier | Qt::ShiftModifier)) {
    return event->ignore();
  }
  QAbstractScrollArea::wheelEvent(event);
}

void GapRows::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::PaletteChange) {
    viewport()->update();
  }
  QAbstractScrollArea::changeEvent(event);
}

QString GapRows::stepText(double instant) const {
  const std::size_t step = stepAt(instant, static_cast<std::size_t>(way_.steps.size()));
  return tr("step %1, %2, instant %3")
      .arg(step + 1)
      .arg(way_.steps.at(static_cast<int>(step)))
      .arg(instant, 0, 'f', 2);
}

QString GapRows::tooltipAt(const QPointF& place) const {
  const auto row = rowAt(place.y());
  if (!row || place.x() > axis_.right()) return {};
  const bool onCells = place.x() >= axis_.left && !way_.standsStill && !way_.steps.isEmpty();
  const double instant = axis_.instantAt(place.x());
  const RibbonPart* part = partIn(*row);
  if (part && !onCells) return rowText(*row);
  const RibbonRow& pair =
      part ? ribbon().rows[worstPairAt(ribbon(), *part, instant)] : *pairIn(*row);
  QString text = pair.names + QLatin1Char('\n');
  text += pair.verdict ? verdictWord(*pair.verdict) : tr("not yet checked");
  if (!pair.figure.isEmpty()) text += QStringLiteral(", ") + pair.figure;
  if (!onCells) return text;
  text += QLatin1Char('\n') + stepText(instant);
  const QString there = gapThere_ ? gapThere_(pair.a, pair.b, instant) : QString();
  return there.isEmpty() ? text : text + QLatin1Char('\n') + there;
}

QString GapRows::rowText(std::size_t row) const {
  if (const RibbonPart* part = partIn(row)) {
    const auto count = static_cast<int>(part->pairs.size());
    const QString pairs = count == 1 ? tr("1 pair") : tr("%1 pairs").arg(count);
    const QString worst =
        part->verdict ? tr("worst: %1").arg(verdictWord(*part->verdict)) : tr("not yet checked");
    const QString fold = lines_.isOpen(part->part) ? tr("open") : tr("folded");
    return QStringLiteral("%1: %2, %3, %4").arg(part->name, pairs, worst, fold);
  }
  const RibbonRow* pair = pairIn(row);
  if (!pair) return countText(row, false);
  if (!pair->verdict) return tr("%1: not yet checked").arg(pair->names);
  QString text = QStringLiteral("%1: %2").arg(pair->names, verdictWord(*pair->verdict));
  if (!pair->figure.isEmpty()) text += QStringLiteral(", ") + pair->figure;
  const auto worst = worstInstant(*pair);
  if (!worst || way_.standsStill || way_.steps.isEmpty()) return text;
  const std::size_t step = stepAt(*worst, static_cast<std::size_t>(way_.steps.size()));
  return tr("%1 at step %2").arg(text).arg(step + 1);
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
