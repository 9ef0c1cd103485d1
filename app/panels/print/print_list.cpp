#include "app/panels/print/print_list.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QTimer>
#include <QWheelEvent>

#include "app/panels/print/print_delegate.h"

namespace swingroom {

PrintList::PrintList(PrintModel& model, QWidget* parent) : QListView(parent), model_(model) {
  setModel(&model);
  setItemDelegate(new PrintDelegate(this));
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setResizeMode(QListView::Adjust);
  setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  setSelectionMode(QAbstractItemView::SingleSelection);
  setEditTriggers(QAbstractItemView::NoEditTriggers);
  setMouseTracking(true);
  setTabKeyNavigation(false);
  setAutoScroll(false);
  setProperty("cards", true);
  setAccessibleName(tr("Findings of the print checks"));
  connect(&model, &QAbstractItemModel::modelReset, this, &PrintList::layAnew);
}

std::optional<int> PrintList::openRow() const {
  const QModelIndexList chosen = selectionModel()->selectedIndexes();
  if (chosen.isEmpty() || model_.isGroup(chosen.front().row())) return std::nullopt;
  return chosen.front().row();
}

void PrintList::choose(int row) {
  quiet_ = true;
  selectionModel()->setCurrentIndex(model_.index(row, 0), QItemSelectionModel::ClearAndSelect);
  quiet_ = false;
  layAnew();
  take(row);
}

void PrintList::toggle(int row) {
  if (!model_.isGroup(row)) return;
  const auto open = openRow();
  const std::optional<PrintRow> kept = open ? std::optional(model_.row(*open)) : std::nullopt;
  quiet_ = true;
  model_.toggle(row);
  const auto line = kept ? model_.lineOf(*kept) : std::nullopt;
  if (line) selectionModel()->select(model_.index(*line, 0), QItemSelectionModel::ClearAndSelect);
  // Hints only come and go below their line.
  selectionModel()->setCurrentIndex(model_.index(row, 0), QItemSelectionModel::NoUpdate);
  quiet_ = false;
  layAnew();
}

/// A person has gone to it.
void PrintList::take(int row) {
  if (!model_.isGroup(row)) Q_EMIT wanted(row);
}

void PrintList::closeRow() {
  if (!openRow()) return;
  quiet_ = true;
  clearSelection();  // The keys keep their place.
  quiet_ = false;
  layAnew();
}

QRect PrintList::placeOf(int row) const {
  return visualRect(model_.index(row, 0));
}

QSize PrintList::sizeHint() const {
  QStyleOptionViewItem option;
  initViewItemOption(&option);
  int height = 0;
  for (int row = 0; row < model_.rowCount(); ++row)
    height += itemDelegate()->sizeHint(option, model_.index(row, 0)).height();
  return {200, height};
}

void PrintList::layAnew() {
  scheduleDelayedItemsLayout();
  updateGeometry();
  // When the view has laid its rows.
  QTimer::singleShot(0, this, &PrintList::laidAnew);
}

void PrintList::currentChanged(const QModelIndex& now, const QModelIndex& before) {
  QListView::currentChanged(now, before);
  layAnew();
  if (!quiet_ && now.isValid() && hasFocus()) take(now.row());
}

/// A view that gets the keys without a current row takes its first one: nobody has gone there.
void PrintList::focusInEvent(QFocusEvent* event) {
  quiet_ = true;
  QListView::focusInEvent(event);
  quiet_ = false;
}

/// At the press: when the row that was open closes, others move away from under the pointer. A line
/// that hints are behind is no row to open: it leaves the open one as it is.
void PrintList::mousePressEvent(QMouseEvent* event) {
  const QModelIndex pressed = indexAt(event->position().toPoint());
  if (event->button() == Qt::LeftButton && pressed.isValid() && model_.isGroup(pressed.row())) {
    return toggle(pressed.row());
  }
  const bool again = pressed.isValid() && pressed == currentIndex();
  QListView::mousePressEvent(event);
  if (again && event->button() == Qt::LeftButton) take(pressed.row());
}

void PrintList::mouseMoveEvent(QMouseEvent* event) {
  if (event->buttons() == Qt::NoButton) QListView::mouseMoveEvent(event);
}

void PrintList::keyPressEvent(QKeyEvent* event) {
  const auto row = openRow();
  if (row && event->matches(QKeySequence::Copy)) {
    QGuiApplication::clipboard()->setText(model_.textOf(*row));
    return;
  }
  const QModelIndex now = currentIndex();
  const bool group = now.isValid() && model_.isGroup(now.row());
  switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Space:
      if (group) return toggle(now.row());
      if (now.isValid()) {
        selectionModel()->select(now, QItemSelectionModel::ClearAndSelect);
        layAnew();
        take(now.row());
      }
      return;
    case Qt::Key_Left:
    case Qt::Key_Right:
      if (!group) return event->ignore();
      if (now.data(PrintModel::OpenRole).toBool() == (event->key() == Qt::Key_Left))
        toggle(now.row());
      return;
    case Qt::Key_Up:
    case Qt::Key_Down:
    case Qt::Key_Home:
    case Qt::Key_End:
      return QListView::keyPressEvent(event);
    default:
      event->ignore();  // Letters are shortcuts of the window, not a search.
  }
}

void PrintList::resizeEvent(QResizeEvent* event) {
  QListView::resizeEvent(event);
  if (event->size().width() != event->oldSize().width()) layAnew();
}

void PrintList::wheelEvent(QWheelEvent* event) {
  event->ignore();  // The page scrolls.
}

void PrintList::changeEvent(QEvent* event) {
  QListView::changeEvent(event);
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::FontChange) layAnew();
}

}  // namespace swingroom
