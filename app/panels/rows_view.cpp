#include "app/panels/rows_view.h"

#include <QContextMenuEvent>
#include <QLineEdit>
#include <QPainter>
#include <QStyledItemDelegate>
#include <QWheelEvent>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kListRowPx = 24;
constexpr int kLeftPx = 16, kRightPx = 12, kNumberPx = 18;

class RowDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override {
    return {60, kListRowPx};
  }
  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const override {
    QRect place = option.rect.adjusted(kLeftPx - 8, 0, -4, 0);
    if (!index.data(NamedRowsModel::NumberRole).toString().isEmpty()) {
      place.setLeft(place.left() + kNumberPx);
    }
    editor->setGeometry(place);
  }
  /// Once: what is being typed stays when the rows are told anew.
  void setEditorData(QWidget* editor, const QModelIndex& index) const override {
    if (editor->property("isFilled").toBool()) return;
    editor->setProperty("isFilled", true);
    QStyledItemDelegate::setEditorData(editor, index);
  }
  QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem&,
                        const QModelIndex& index) const override {
    auto* editor = new QLineEdit(parent);
    editor->setAccessibleName(RowsView::tr("Name of %1").arg(index.data().toString()));
    return editor;
  }
};

void paintGround(QPainter& painter, const QStyleOptionViewItem& option, bool present) {
  const Theme& look = theme();
  const bool isCurrent = option.state & QStyle::State_HasFocus;
  if (present) {
    painter.fillRect(option.rect, look.chosen);
    painter.fillRect(QRect(option.rect.left(), option.rect.top(), 3, option.rect.height()),
                     look.accent);
  } else if (option.state & QStyle::State_MouseOver) {
    painter.fillRect(option.rect, look.hover);
  }
  if (!isCurrent) return;
  painter.setPen(QPen(look.accent, 1));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(QRectF(option.rect).adjusted(4.5, 1.5, -4.5, -1.5), 4, 4);
}

void RowDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const bool present = index.data(NamedRowsModel::PresentRole).toBool();
  paintGround(*painter, option, present);
  QRect room = option.rect.adjusted(kLeftPx, 0, -kRightPx, 0);
  const QString number = index.data(NamedRowsModel::NumberRole).toString();
  if (!number.isEmpty()) {
    painter->setFont(labelFont());
    painter->setPen(theme().soft);
    painter->drawText(QRect(room.left(), room.top(), kNumberPx - 4, room.height()),
                      Qt::AlignLeft | Qt::AlignVCenter, number);
    room.setLeft(room.left() + kNumberPx);
  }
  QFont font = bodyFont();
  if (present) font.setWeight(QFont::DemiBold);
  const QFontMetrics body(font), label(labelFont());
  const QString name = body.elidedText(index.data().toString(), Qt::ElideMiddle, room.width());
  painter->setFont(font);
  painter->setPen(theme().ink);
  painter->drawText(room, Qt::AlignLeft | Qt::AlignVCenter, name);
  const int left = room.width() - body.horizontalAdvance(name) - 10;
  const QString fact = index.data(NamedRowsModel::FactRole).toString();
  if (left >= std::min(40, label.horizontalAdvance(fact))) {
    painter->setFont(labelFont());
    painter->setPen(theme().soft);
    painter->drawText(room, Qt::AlignRight | Qt::AlignVCenter,
                      label.elidedText(fact, Qt::ElideRight, left));
  }
  painter->restore();
}

}  // namespace

RowsView::RowsView(NamedRowsModel& model, const QString& accessibleName, QWidget* parent)
    : QListView(parent), model_(model) {
  setModel(&model);
  setItemDelegate(new RowDelegate(this));
  setAccessibleName(accessibleName);
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  setSelectionMode(QAbstractItemView::NoSelection);
  setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed);
  setMouseTracking(true);
  setTabKeyNavigation(false);
  connect(&model, &QAbstractItemModel::modelReset, this, &QWidget::updateGeometry);
  connect(this, &QListView::clicked, this,
          [this](const QModelIndex& index) { Q_EMIT chosen(index.row()); });
}

QSize RowsView::sizeHint() const {
  return {120, kListRowPx * model_.rowCount()};
}

void RowsView::rename(int row) {
  const QModelIndex index = model_.index(row);
  if (!index.isValid()) return;
  setFocus(Qt::OtherFocusReason);
  setCurrentIndex(index);
  edit(index);
}

void RowsView::mousePressEvent(QMouseEvent* event) {
  // The right button asks, it does not choose.
  if (event->button() == Qt::LeftButton) return QListView::mousePressEvent(event);
  setCurrentIndex(indexAt(event->pos()));
}

void RowsView::keyPressEvent(QKeyEvent* event) {
  const int row = currentIndex().row();
  if (state() != EditingState && row >= 0) {
    switch (event->key()) {
      case Qt::Key_Return:
      case Qt::Key_Enter:
      case Qt::Key_Space:
        Q_EMIT chosen(row);
        return;
      case Qt::Key_Delete:
        Q_EMIT removeWanted(row);
        return;
      case Qt::Key_Home:
      case Qt::Key_End:
      case Qt::Key_Up:
      case Qt::Key_Down:
      case Qt::Key_F2:
        return QListView::keyPressEvent(event);
      default:
        break;
    }
  }
  event->ignore();  // Letters are shortcuts of the window, not a search.
}

void RowsView::contextMenuEvent(QContextMenuEvent* event) {
  const bool byKey = event->reason() == QContextMenuEvent::Keyboard;
  const QModelIndex index = byKey ? currentIndex() : indexAt(event->pos());
  if (!index.isValid()) return;
  const QPoint place = byKey ? visualRect(index).bottomLeft() : event->pos();
  Q_EMIT menuWanted(index.row(), viewport()->mapToGlobal(place));
}

}  // namespace swingroom
