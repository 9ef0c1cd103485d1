#include "app/panels/part_delegate.h"

#include <QMouseEvent>
#include <QPainter>

#include "app/models/parts_model.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kRowPx = 26;
constexpr double kChipPx = 12;

QRectF chipRect(const QRect& row) {
  return QRectF(row.left() + 4, row.center().y() + 1 - kChipPx / 2, kChipPx, kChipPx);
}

void paintChip(QPainter& painter, const QRectF& rect, const QColor& colour, bool shown) {
  QColor edge = mixed(colour, theme().ink, 0.35);
  painter.setPen(QPen(shown ? edge : theme().soft, 1));
  painter.setBrush(shown ? QBrush(colour) : QBrush(Qt::NoBrush));
  painter.drawRoundedRect(rect.adjusted(0.5, 0.5, -0.5, -0.5), 3, 3);
}

/// The mesh has a note: an "i" in a ring.
void paintNote(QPainter& painter, const QRectF& rect) {
  painter.setPen(QPen(theme().soft, 1.2));
  painter.setBrush(Qt::NoBrush);
  painter.drawEllipse(rect);
  painter.setFont(boldLabelFont());
  painter.drawText(rect, Qt::AlignCenter, QStringLiteral("i"));
}

}  // namespace

void PartDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const QString text = index.data(Qt::DisplayRole).toString();
  if (index.column() == 1) {
    painter->setPen(theme().soft);
    painter->setFont(labelFont());
    const QRect room = option.rect.adjusted(4, 0, -10, 0);
    const QString shown = QFontMetrics(labelFont()).elidedText(text, Qt::ElideRight, room.width());
    painter->drawText(room, Qt::AlignRight | Qt::AlignVCenter, shown);
    painter->restore();
    return;
  }
  const bool shown = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
  const QRectF chip = chipRect(option.rect);
  paintChip(*painter, chip, index.data(PartsModel::ColourRole).value<QColor>(), shown);
  QRectF room(chip.right() + 8, option.rect.top(), option.rect.right() - chip.right() - 8,
              option.rect.height());
  if (!index.data(PartsModel::NoteRole).toString().isEmpty()) {
    room.setRight(room.right() - 18);
    paintNote(*painter, QRectF(room.right() + 2, option.rect.center().y() - 5.5, 13, 13));
  }
  painter->setPen(shown ? theme().ink : theme().soft);
  painter->setFont(bodyFont());
  const QString name = QFontMetrics(bodyFont())
                           .elidedText(text, Qt::ElideMiddle, static_cast<int>(room.width()));
  painter->drawText(room, Qt::AlignLeft | Qt::AlignVCenter, name);
  painter->restore();
}

QSize PartDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const {
  const QString text = index.data(Qt::DisplayRole).toString();
  const bool name = index.column() == 0;
  const QFontMetrics metrics(name ? bodyFont() : labelFont());
  return {metrics.horizontalAdvance(text) + (name ? 44 : 16), kRowPx};
}

bool PartDelegate::editorEvent(QEvent* event, QAbstractItemModel* model,
                               const QStyleOptionViewItem& option, const QModelIndex& index) {
  if (index.column() != 0) return false;
  const auto toggle = [&] {
    const bool shown = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    return model->setData(index, shown ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
  };
  if (event->type() == QEvent::KeyPress) {
    return static_cast<QKeyEvent*>(event)->key() == Qt::Key_H && toggle();
  }
  const bool pressed = event->type() == QEvent::MouseButtonPress;
  if (!pressed && event->type() != QEvent::MouseButtonRelease) return false;
  const auto* mouse = static_cast<QMouseEvent*>(event);
  if (mouse->button() != Qt::LeftButton) return false;
  if (!chipRect(option.rect).adjusted(-4, -6, 4, 6).contains(mouse->position())) return false;
  return pressed || toggle();
}

}  // namespace swingroom
