#include "app/panels/findings/near_list.h"

#include <QAbstractListModel>
#include <QKeyEvent>
#include <QPainter>
#include <QStyledItemDelegate>

#include "app/panels/marks.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kNearRowPx = 22;
constexpr int kSidePx = 16;

/// Paints one row; the model is asked for the whole of it.
class NearDelegate : public QStyledItemDelegate {
 public:
  NearDelegate(const NearList& list, QObject* parent) : QStyledItemDelegate(parent), list_(list) {}

  QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override {
    return {100, kNearRowPx};
  }

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override {
    const auto place = static_cast<std::size_t>(index.row());
    if (place >= list_.rows().size()) return;
    const NearRow& row = list_.rows()[place];
    const bool current = list_.hasFocus() && index == list_.currentIndex();
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    if (current || option.state & QStyle::State_MouseOver) {
      painter->fillRect(option.rect, current ? theme().chosen : theme().hover);
    }
    painter->setFont(labelFont());
    const QFontMetrics metrics(labelFont());
    const QRect line = option.rect.adjusted(kSidePx, 0, -kSidePx, 0);
    if (row.verdict) {
      paintMark(*painter, QRectF(line.left(), line.top() + 6, 10, 10), *row.verdict);
    }
    painter->setPen(theme().ink);
    painter->drawText(line, Qt::AlignRight | Qt::AlignVCenter, row.figure);
    painter->setPen(theme().soft);
    const QRect room = line.adjusted(18, 0, -metrics.horizontalAdvance(row.figure) - 8, 0);
    painter->drawText(room, Qt::AlignLeft | Qt::AlignVCenter,
                      metrics.elidedText(row.names, Qt::ElideMiddle, room.width()));
    painter->restore();
  }

 private:
  const NearList& list_;
};

}  // namespace

class NearList::Model : public QAbstractListModel {
 public:
  using QAbstractListModel::QAbstractListModel;

  int rowCount(const QModelIndex& parent = {}) const override {
    return parent.isValid() ? 0 : static_cast<int>(rows.size());
  }
  QVariant data(const QModelIndex& index, int role) const override {
    if (!index.isValid() || index.row() >= rowCount()) return {};
    const NearRow& row = rows[static_cast<std::size_t>(index.row())];
    const QString word = row.verdict ? verdictWord(*row.verdict) : QString();
    if (role == Qt::DisplayRole) {
      return QStringLiteral("%1 %2 %3").arg(row.names, row.figure, word).trimmed();
    }
    if (role == Qt::ToolTipRole) return QStringLiteral("%1: %2").arg(row.names, row.figure);
    return {};
  }

  /// Rows stay where they are, so that the current one does while a joint is dragged.
  void show(const std::vector<NearRow>& now) {
    const int before = rowCount(), after = static_cast<int>(now.size());
    if (after < before) {
      beginRemoveRows({}, after, before - 1);
      rows.resize(now.size());
      endRemoveRows();
    } else if (after > before) {
      beginInsertRows({}, before, after - 1);
      rows = now;
      endInsertRows();
    }
    rows = now;
    if (after > 0) Q_EMIT dataChanged(index(0), index(after - 1));
  }

  std::vector<NearRow> rows;
};

NearList::NearList(QWidget* parent) : QListView(parent), model_(new Model(this)) {
  setModel(model_);
  setItemDelegate(new NearDelegate(*this, this));
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setMouseTracking(true);
  setAccessibleName(tr("Nearest now"));
  setAccessibleDescription(
      tr("The pairs that are nearest as everything stands. Enter chooses one."));
  connect(this, &QListView::clicked, this, &NearList::choose);
}

const std::vector<NearRow>& NearList::rows() const {
  return model_->rows;
}

void NearList::setRows(const std::vector<NearRow>& rows) {
  if (rows != model_->rows) model_->show(rows);
}

QSize NearList::sizeHint() const {
  // Always the same, so that nothing jumps while a joint is dragged.
  return {200, static_cast<int>(kMostRows) * kNearRowPx};
}

void NearList::keyPressEvent(QKeyEvent* event) {
  const bool enters = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter ||
                      event->key() == Qt::Key_Space;
  if (enters && currentIndex().isValid()) return choose(currentIndex());
  if (event->key() == Qt::Key_Down && !currentIndex().isValid() && model_->rowCount() > 0) {
    return setCurrentIndex(model_->index(0));
  }
  QListView::keyPressEvent(event);
}

void NearList::choose(const QModelIndex& index) {
  const auto place = static_cast<std::size_t>(index.row());
  if (!index.isValid() || place >= rows().size()) return;
  const auto [a, b] = rows()[place].pair;
  Q_EMIT pairWanted(a, b);
}

}  // namespace swingroom
