#include "app/panels/parts/part_looks_view.h"

#include <QHeaderView>
#include <QPainter>
#include <QStyledItemDelegate>
#include <algorithm>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kLookRowPx = 26;
constexpr int kMostRows = 9;

/// A ring with an exclamation mark, as over what is wrong with a document.
void paintRing(QPainter& painter, const QRectF& room) {
  painter.setPen(QPen(theme().ink, 1.2));
  painter.setBrush(Qt::NoBrush);
  painter.drawEllipse(room);
  painter.setFont(boldLabelFont());
  painter.drawText(room, Qt::AlignCenter, QStringLiteral("!"));
}

class LookDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    if (option.state & QStyle::State_Selected) painter->fillRect(option.rect, theme().chosen);
    const bool unusual = index.data(PartLooksModel::UnusualRole).toBool();
    QRect room = option.rect.adjusted(8, 0, -8, 0);
    if (index.column() == PartLooksModel::Name) {
      const QRectF chip(room.left(), room.center().y() - 5.5, 12, 12);
      painter->setPen(QPen(mixed(theme().panel, theme().ink, 0.3), 1));
      painter->setBrush(index.data(PartLooksModel::ColourRole).value<QColor>());
      painter->drawRoundedRect(chip, 3, 3);
      room.adjust(20, 0, 0, 0);
    } else if (index.column() == PartLooksModel::Surface && unusual) {
      paintRing(*painter, QRectF(room.left(), room.center().y() - 6.5, 14, 14));
      room.adjust(22, 0, 0, 0);
    }
    const bool strong = unusual || index.column() == PartLooksModel::Name;
    painter->setFont(bodyFont());
    painter->setPen(strong ? theme().ink : theme().soft);
    const QString text =
        QFontMetrics(bodyFont()).elidedText(index.data().toString(), Qt::ElideMiddle, room.width());
    const auto alignment = index.data(Qt::TextAlignmentRole).value<Qt::Alignment>();
    painter->drawText(room, static_cast<int>(alignment), text);
    painter->restore();
  }

  QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const override {
    const QFontMetrics words(bodyFont());
    const int more = index.column() == PartLooksModel::Name      ? 20
                     : index.column() == PartLooksModel::Surface ? 22
                                                                 : 0;
    return {words.horizontalAdvance(index.data().toString()) + 20 + more,
            std::max(kLookRowPx, words.height() + 6)};
  }
};

}  // namespace

PartLooksView::PartLooksView(QWidget* parent) : QTreeView(parent) {
  setModel(&model_);
  setItemDelegate(new LookDelegate(this));
  setRootIsDecorated(false);
  setUniformRowHeights(true);
  setSelectionBehavior(SelectRows);
  setAllColumnsShowFocus(true);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setFrameShape(QFrame::NoFrame);
  setAccessibleName(tr("The parts that will be made"));
  header()->setSectionsMovable(false);
  header()->setStretchLastSection(false);
  header()->setSectionResizeMode(QHeaderView::ResizeToContents);
  header()->setSectionResizeMode(PartLooksModel::Name, QHeaderView::Stretch);
  connect(&model_, &QAbstractItemModel::modelReset, this, &QWidget::updateGeometry);
}

QSize PartLooksView::sizeHint() const {
  const int rows = std::clamp(model_.rowCount(), 3, kMostRows);
  return {480, header()->sizeHint().height() + rows * kLookRowPx + 4};
}

}  // namespace swingroom
