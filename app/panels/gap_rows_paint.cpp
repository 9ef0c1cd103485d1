#include <QPaintEvent>
#include <QPainter>
#include <QScrollBar>
#include <algorithm>

#include "app/panels/gap_rows.h"
#include "app/panels/marks.h"
#include "app/panels/needle.h"
#include "app/panels/ribbon_paint.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr double kMarkSide = 11, kMarkRoom = 22;

bool asksForAttention(const RibbonRow& row) {
  return row.verdict && *row.verdict != Verdict::clear && *row.verdict != Verdict::allowed;
}

}  // namespace

/// From the left edge to the mark's column.
QRectF GapRows::labelRect(std::size_t row) const {
  const QRectF cell = cellRect(row);
  return {8, cell.top() - 1.5, std::max(0.0, axis_.left - kMarkRoom - 12), double(kRowHeight)};
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
    if (row < ribbon_.rows.size()) {
      paintRow(painter, row, exposed);
    } else {
      paintCountRow(painter, row, exposed);
    }
  }
  if (scrolled > 0) {
    painter.fillRect(QRectF(0, 0, axis_.right(), 1), theme().line);  // More rows above.
  }
  if (way_.standsStill || rows == 0) return;
  const double end = std::min<double>(cellRect(rows - 1).bottom() + 4, viewport()->height());
  paintNeedlePiece(painter, axis_.xAt(instant_), 0, end);
}

void GapRows::paintRow(QPainter& painter, std::size_t row, const QRectF& exposed) const {
  const RibbonRow& pair = ribbon_.rows[row];
  const QRectF cell = cellRect(row);
  // What no run covers is as quiet as a far gap.
  paintTone(painter, cell, exposed, RibbonTone::gap);
  for (const RibbonRun& run : pair.runs) {
    const QRectF place = runRect(run, cell, {cell.left(), cell.width()});
    if (!place.intersects(exposed)) continue;
    if (run.tone == RibbonTone::allowed || run.tone == RibbonTone::pending) {
      painter.fillRect(place & exposed, theme().panel);
    }
    paintTone(painter, place, exposed, run.tone, run.nearness);
  }
  if (chosenRow() == row) {
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
  if (way_.standsStill) {
    painter.setFont(labelFont());
    painter.setPen(theme().soft);
    painter.drawText(cell.translated(cell.width() + 12, 0),
                     Qt::AlignLeft | Qt::AlignVCenter | Qt::TextDontClip, pair.figure);
  }
  if (exposed.left() < axis_.left) paintLabel(painter, row);
}

void GapRows::paintLabel(QPainter& painter, std::size_t row) const {
  const RibbonRow& pair = ribbon_.rows[row];
  const bool chosen = chosenRow() == row;
  const QRectF place = labelRect(row);
  if (hovered_ == row) {
    painter.fillRect(QRectF(0, place.top(), axis_.left - 4, place.height()), theme().hover);
  }
  const QFont font = chosen ? boldLabelFont() : labelFont();
  const QString text = QFontMetricsF(font).elidedText(pair.names, Qt::ElideMiddle, place.width());
  painter.setFont(font);
  painter.setPen(chosen || hovered_ == row || asksForAttention(pair) ? theme().ink : theme().soft);
  painter.drawText(place, Qt::AlignRight | Qt::AlignVCenter, text);
  if (!pair.verdict) return;
  const double left = axis_.left - kMarkRoom + 3;
  paintMark(painter, {left, place.center().y() - kMarkSide / 2, kMarkSide, kMarkSide},
            *pair.verdict);
}

/// "612 pairs farther all the way", and how many are being checked.
void GapRows::paintCountRow(QPainter& painter, std::size_t row, const QRectF& exposed) const {
  const bool far = ribbon_.farPairs > 0 && row == ribbon_.rows.size();
  paintTone(painter, cellRect(row), exposed, far ? RibbonTone::gap : RibbonTone::pending);
  if (exposed.left() >= axis_.left) return;
  const std::size_t count = far ? ribbon_.farPairs : ribbon_.waiting;
  const QString all = far          ? count == 1 ? tr("1 pair farther all the way")
                                                : tr("%1 pairs farther all the way").arg(count)
                               : count == 1 ? tr("1 pair being checked")
                                   : tr("%1 pairs being checked").arg(count);
  const QString brief = far ? tr("%1 farther").arg(count) : tr("%1 waiting").arg(count);
  const QRectF place = labelRect(row);
  const bool fits = QFontMetricsF(labelFont()).horizontalAdvance(all) <= place.width();
  painter.setFont(labelFont());
  painter.setPen(theme().soft);
  painter.drawText(place, Qt::AlignRight | Qt::AlignVCenter, fits ? all : brief);
}

}  // namespace swingroom
