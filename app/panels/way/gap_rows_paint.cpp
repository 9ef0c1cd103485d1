#include <QPaintEvent>
#include <QPainter>
#include <QScrollBar>
#include <algorithm>

#include "app/panels/marks.h"
#include "app/panels/theme.h"
#include "app/panels/way/gap_rows.h"
#include "app/panels/way/needle.h"
#include "app/panels/way/ribbon_paint.h"

namespace swingroom {
namespace {

constexpr double kMarkSide = 11, kMarkRoom = 22;
constexpr double kTriangleX = 18, kNameLeft = 30;

bool asksForAttention(const std::optional<Verdict>& verdict) {
  return verdict && *verdict != Verdict::clear && *verdict != Verdict::allowed;
}

/// Points right when folded, down when open.
void paintFoldTriangle(QPainter& painter, const QPointF& middle, bool open) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.translate(middle);
  if (open) painter.rotate(90);
  painter.setPen(QPen(theme().soft, 1.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setBrush(Qt::NoBrush);
  painter.drawPolyline(QPolygonF({{-2, -3.5}, {1.8, 0}, {-2, 3.5}}));
  painter.restore();
}

}  // namespace

/// From the left edge to the mark's column.
QRectF GapRows::labelRect(std::size_t row) const {
  const QRectF cell = cellRect(row);
  return {8, cell.top() - 1.5, std::max(0.0, axis_.left - kMarkRoom - 12), double(kRowHeight)};
}

/// What is seen of the way lies over the whole cell; a mode on its own has a short bar.
WayAxis GapRows::cellAxis(const QRectF& cell) const {
  if (way_.standsStill) return {cell.left(), cell.width()};
  return axis_;
}

void GapRows::paintEvent(QPaintEvent* event) {
  QPainter painter(viewport());
  const QRectF exposed = event->rect();
  const double scrolled = verticalScrollBar()->value();
  const auto first = static_cast<std::size_t>((exposed.top() + scrolled) / kRowHeight);
  const std::size_t rows = rowCount();
  lastRowsPainted_ = 0;
  for (std::size_t row = first; row < rows && cellRect(row).top() < exposed.bottom(); ++row) {
    ++lastRowsPainted_;
    if (pairIn(row) || partIn(row)) {
      paintRow(painter, row, exposed);
    } else {
      paintCountRow(painter, row, exposed);
    }
  }
  if (scrolled > 0) {
    painter.fillRect(QRectF(0, 0, axis_.right(), 1), theme().line);  // More rows above.
  }
  if (way_.standsStill || rows == 0 || !axis_.sees(instant_)) return;
  const double end = std::min<double>(cellRect(rows - 1).bottom() + 4, viewport()->height());
  paintNeedlePiece(painter, axis_.xAt(instant_), 0, end);
  paintFigureNow(painter);
}

void GapRows::paintRuns(QPainter& painter, const std::vector<RibbonRun>& runs, const QRectF& cell,
                        const QRectF& exposed) const {
  const QRectF seen = cell & exposed;
  if (seen.isEmpty()) return;
  const WayAxis axis = cellAxis(cell);
  // What no run covers is as quiet as a far gap.
  paintTone(painter, cell, seen, RibbonTone::gap);
  for (const RibbonRun& run : runs) {
    if (run.to < axis.from || run.from > axis.to) continue;
    const QRectF place = runRect(run, cell, axis) & cell;
    if (!place.intersects(seen)) continue;
    if (run.tone == RibbonTone::allowed || run.tone == RibbonTone::pending) {
      painter.fillRect(place & seen, theme().panel);
    }
    paintTone(painter, place, seen, run.tone, run.nearness);
  }
}

void GapRows::paintOutline(QPainter& painter, const QRectF& cell) const {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setBrush(Qt::NoBrush);
  // A panel-coloured rim keeps the outline apart from a blue of the same tone.
  painter.setPen(QPen(theme().panel, 1));
  painter.drawRoundedRect(cell.adjusted(0.5, 0.5, -0.5, -0.5), 2, 2);
  painter.setPen(QPen(theme().accent, 2));
  painter.drawRoundedRect(cell.adjusted(-1, -0.5, 1, 0.5), 3, 3);
  painter.restore();
}

void GapRows::paintRow(QPainter& painter, std::size_t row, const QRectF& exposed) const {
  const QRectF cell = cellRect(row);
  const RibbonRow* pair = pairIn(row);
  paintRuns(painter, pair ? pair->runs : partIn(row)->runs, cell, exposed);
  if (chosenRow() == row) paintOutline(painter, cell);
  if (way_.standsStill && pair) {
    painter.setFont(labelFont());
    painter.setPen(theme().soft);
    painter.drawText(cell.translated(cell.width() + 12, 0),
                     Qt::AlignLeft | Qt::AlignVCenter | Qt::TextDontClip, pair->figure);
  }
  if (exposed.left() < axis_.left) paintLabel(painter, row);
}

void GapRows::paintLabel(QPainter& painter, std::size_t row) const {
  const QRectF place = labelRect(row);
  if (hovered_ == row) {
    painter.fillRect(QRectF(0, place.top(), axis_.left - 4, place.height()), theme().hover);
  }
  const RibbonRow* pair = pairIn(row);
  const auto& verdict = pair ? pair->verdict : partIn(row)->verdict;
  const bool strong = chosenRow() == row;
  painter.setFont(strong ? boldLabelFont() : labelFont());
  painter.setPen(strong || hovered_ == row || asksForAttention(verdict) ? theme().ink
                                                                        : theme().soft);
  if (pair) {
    paintPairLabel(painter, row);
  } else {
    paintPartLabel(painter, row);
  }
  if (!verdict) return;
  const double left = axis_.left - kMarkRoom + 3;
  paintMark(painter, {left, place.center().y() - kMarkSide / 2, kMarkSide, kMarkSide}, *verdict);
}

void GapRows::paintPairLabel(QPainter& painter, std::size_t row) const {
  const RibbonRow& pair = *pairIn(row);
  const QRectF place = labelRect(row);
  QString name = pair.names;
  if (const auto& under = lines_.lines()[row].under) {
    name = pair.partNames[pair.a == lines_.parts()[*under].part ? 1 : 0];
  }
  painter.drawText(place, Qt::AlignRight | Qt::AlignVCenter,
                   QFontMetricsF(painter.font()).elidedText(name, Qt::ElideMiddle, place.width()));
}

/// Triangle, name, and how many pairs it opens to.
void GapRows::paintPartLabel(QPainter& painter, std::size_t row) const {
  const RibbonPart& part = *partIn(row);
  const QRectF place = labelRect(row);
  paintFoldTriangle(painter, {kTriangleX, place.center().y()}, lines_.isOpen(part.part));
  const QFontMetricsF metrics(painter.font());
  const QString count = QString::number(part.pairs.size());
  const double right = place.right() - metrics.horizontalAdvance(count) - 8;
  const QRectF name(kNameLeft, place.top(), std::max(0.0, right - kNameLeft), place.height());
  painter.drawText(name, Qt::AlignLeft | Qt::AlignVCenter,
                   metrics.elidedText(part.name, Qt::ElideMiddle, name.width()));
  painter.setPen(theme().soft);
  painter.setFont(labelFont());
  painter.drawText(place, Qt::AlignRight | Qt::AlignVCenter, count);
}

QString GapRows::countText(std::size_t row, bool brief) const {
  const bool far = lines_.lines()[row].kind == RibbonLine::Kind::far;
  const std::size_t count = far ? ribbon().farPairs : ribbon().waiting;
  if (brief) return far ? tr("%1 farther").arg(count) : tr("%1 waiting").arg(count);
  if (far) {
    return count == 1 ? tr("1 pair farther all the way")
                      : tr("%1 pairs farther all the way").arg(count);
  }
  return count == 1 ? tr("1 pair being checked") : tr("%1 pairs being checked").arg(count);
}

/// "612 pairs farther all the way", and how many are being checked.
void GapRows::paintCountRow(QPainter& painter, std::size_t row, const QRectF& exposed) const {
  const bool far = lines_.lines()[row].kind == RibbonLine::Kind::far;
  paintTone(painter, cellRect(row), exposed, far ? RibbonTone::gap : RibbonTone::pending);
  if (exposed.left() >= axis_.left) return;
  const QString all = countText(row, false);
  const QRectF place = labelRect(row);
  const bool fits = QFontMetricsF(labelFont()).horizontalAdvance(all) <= place.width();
  painter.setFont(labelFont());
  painter.setPen(theme().soft);
  painter.drawText(place, Qt::AlignRight | Qt::AlignVCenter, fits ? all : countText(row, true));
}

/// Beside the needle, on the side where there is room.
QRectF GapRows::figureNowRect() const {
  if (figureNow_.isEmpty() || !chosenRow_ || !pairIn(*chosenRow_)) return {};
  if (way_.standsStill || !axis_.sees(instant_)) return {};
  const QRectF cell = cellRect(*chosenRow_);
  const double wide = QFontMetricsF(boldLabelFont()).horizontalAdvance(figureNow_) + 12;
  const double x = axis_.xAt(instant_);
  const double left = x + 6 + wide <= axis_.right() - 2 ? x + 6 : x - 6 - wide;
  return {left, cell.top() - 0.5, wide, cell.height() + 1};
}

void GapRows::paintFigureNow(QPainter& painter) const {
  const QRectF place = figureNowRect();
  if (place.isEmpty()) return;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(Qt::NoPen);
  painter.setBrush(theme().panel);
  painter.drawRoundedRect(place.adjusted(0, 1.5, 0, -1.5), 4, 4);
  painter.setFont(boldLabelFont());
  painter.setPen(theme().ink);
  painter.drawText(place, Qt::AlignCenter | Qt::TextDontClip, figureNow_);
  painter.restore();
}

}  // namespace swingroom
