#include "app/panels/parts/part_delegate.h"

#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>

#include "app/models/parts_model.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kTreeRowPx = 26;
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

/// The name first; how the part hangs gets what room is left.
void paintWords(QPainter& painter, const QRectF& room, const QModelIndex& index,
                const QColor& ink) {
  const QFontMetrics body(bodyFont()), label(labelFont());
  const int width = static_cast<int>(room.width());
  const QString name = body.elidedText(index.data().toString(), Qt::ElideMiddle, width);
  painter.setFont(bodyFont());
  painter.setPen(ink);
  painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter, name);
  constexpr int kGapPx = 10, kLeastPx = 28;
  const int left = width - body.horizontalAdvance(name) - kGapPx;
  const QString hangs = index.siblingAtColumn(1).data().toString();
  if (left < std::min(kLeastPx, label.horizontalAdvance(hangs))) return;
  painter.setFont(labelFont());
  painter.setPen(theme().soft);
  painter.drawText(room, Qt::AlignRight | Qt::AlignVCenter,
                   label.elidedText(hangs, Qt::ElideRight, left));
}

}  // namespace

void PartDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const bool shown = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
  const QRectF chip = chipRect(option.rect);
  const bool ghost = index.data(PartsModel::GhostRole).toBool();
  QColor colour = index.data(PartsModel::ColourRole).value<QColor>();
  if (ghost) colour = mixed(colour, theme().panel, 0.7);
  paintChip(*painter, chip, colour, shown);
  QRectF room = option.rect;
  room.setLeft(chip.right() + 8);
  room.setRight(room.right() - 10);
  if (!index.data(PartsModel::NoteRole).toString().isEmpty()) {
    paintNote(*painter, QRectF(room.left(), room.center().y() - 6, 13, 13));
    room.setLeft(room.left() + 18);
  }
  paintWords(*painter, room, index, shown && !ghost ? theme().ink : theme().soft);
  painter->restore();
}

QSize PartDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const {
  return {QFontMetrics(bodyFont()).horizontalAdvance(index.data().toString()) + 44, kTreeRowPx};
}

QWidget* PartDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                    const QModelIndex& index) const {
  auto* editor = new QLineEdit(parent);
  editor->setAccessibleName(tr("Name of %1").arg(index.data().toString()));
  return editor;
}

void PartDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                        const QModelIndex&) const {
  const int left = static_cast<int>(chipRect(option.rect).right()) + 2;
  editor->setGeometry(option.rect.adjusted(left - option.rect.left(), 1, -4, -1));
}

bool PartDelegate::editorEvent(QEvent* event, QAbstractItemModel* model,
                               const QStyleOptionViewItem& option, const QModelIndex& index) {
  const auto toggle = [&] {
    const bool shown = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    return model->setData(index, shown ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
  };
  const bool pressed = event->type() == QEvent::MouseButtonPress;
  if (!pressed && event->type() != QEvent::MouseButtonRelease) return false;
  const auto* mouse = static_cast<QMouseEvent*>(event);
  if (mouse->button() != Qt::LeftButton) return false;
  if (!chipRect(option.rect).adjusted(-4, -6, 4, 6).contains(mouse->position())) return false;
  return pressed || toggle();
}

}  // namespace swingroom
