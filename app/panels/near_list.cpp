#include "app/panels/near_list.h"

#include <QMouseEvent>
#include <QPainter>

#include "app/panels/marks.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kNearRowPx = 22;
constexpr int kSidePx = 16;

}  // namespace

NearList::NearList(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  setAccessibleName(tr("Nearest now"));
}

void NearList::setRows(const std::vector<NearRow>& rows) {
  if (rows == rows_) return;
  rows_ = rows;
  QStringList said;
  for (const NearRow& row : rows_) {
    const QString word = row.verdict ? verdictWord(*row.verdict) : QString();
    said += QStringLiteral("%1 %2 %3").arg(row.names, row.figure, word).trimmed();
  }
  setAccessibleDescription(said.join(QStringLiteral("; ")));
  update();
}

QSize NearList::sizeHint() const {
  // Always the same, so that nothing jumps while a joint is dragged.
  return {200, static_cast<int>(kMostRows) * kNearRowPx};
}

void NearList::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(labelFont());
  const QFontMetrics metrics(labelFont());
  int top = 0;
  for (const NearRow& row : rows_) {
    const QRect line(kSidePx, top, width() - 2 * kSidePx, kNearRowPx);
    if (row.verdict) paintMark(painter, QRectF(line.left(), top + 6, 10, 10), *row.verdict);
    const int figurePx = metrics.horizontalAdvance(row.figure);
    painter.setPen(theme().ink);
    painter.drawText(line, Qt::AlignRight | Qt::AlignVCenter, row.figure);
    painter.setPen(theme().soft);
    const QRect room = line.adjusted(18, 0, -figurePx - 8, 0);
    painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter,
                     metrics.elidedText(row.names, Qt::ElideMiddle, room.width()));
    top += kNearRowPx;
  }
}

void NearList::mouseReleaseEvent(QMouseEvent* event) {
  const int row = event->position().toPoint().y() / kNearRowPx;
  if (row < 0 || static_cast<std::size_t>(row) >= rows_.size()) return;
  const auto [a, b] = rows_[static_cast<std::size_t>(row)].pair;
  Q_EMIT pairWanted(a, b);
}

}  // namespace swingroom
