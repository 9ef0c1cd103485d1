#include "app/panels/way/gap_rows_access.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QPointer>
#include <map>

#include "app/panels/way/gap_rows.h"

namespace swingroom {
namespace {

/// One row. It lives as long as the list's interface, and is invalid where there is no such row.
class RowAccess : public QAccessibleInterface {
 public:
  RowAccess(GapRows& rows, std::size_t row) : rows_(&rows), row_(row) {}

  bool isValid() const override { return rows_ && row_ < rows_->rowCount(); }
  QObject* object() const override { return nullptr; }
  QAccessibleInterface* parent() const override {
    return rows_ ? QAccessible::queryAccessibleInterface(rows_) : nullptr;
  }
  QAccessibleInterface* child(int) const override { return nullptr; }
  QAccessibleInterface* childAt(int, int) const override { return nullptr; }
  int childCount() const override { return 0; }
  int indexOfChild(const QAccessibleInterface*) const override { return -1; }
  QAccessible::Role role() const override { return QAccessible::ListItem; }
  void setText(QAccessible::Text, const QString&) override {}

  QString text(QAccessible::Text kind) const override {
    return isValid() && kind == QAccessible::Name ? rows_->rowText(row_) : QString();
  }

  QRect rect() const override {
    if (!isValid()) return {};
    const QRect cell = rows_->cellRect(row_).toAlignedRect();
    const QRect whole(0, cell.top(), rows_->viewport()->width(), cell.height());
    return {rows_->viewport()->mapToGlobal(whole.topLeft()), whole.size()};
  }

  QAccessible::State state() const override {
    QAccessible::State state;
    if (!isValid()) {
      state.invalid = true;
      return state;
    }
    const bool chosen = rows_->chosenRow() == row_;
    const RibbonLine line = rows_->lines().lines()[row_];
    state.selectable = state.focusable = true;
    state.selected = chosen;
    state.focused = chosen && rows_->parentWidget()->hasFocus();
    state.offscreen = !rect().intersects(
        QRect(rows_->viewport()->mapToGlobal(QPoint(0, 0)), rows_->viewport()->size()));
    if (line.kind == RibbonLine::Kind::part) {
      const PartId part = rows_->lines().parts()[line.index].part;
      state.expandable = true;
      state.expanded = rows_->lines().isOpen(part);
      state.collapsed = !state.expanded;
    }
    return state;
  }

 private:
  QPointer<GapRows> rows_;
  std::size_t row_;
};

class RowsAccess : public QAccessibleWidget {
 public:
  explicit RowsAccess(GapRows& rows) : QAccessibleWidget(&rows, QAccessible::List) {}
  ~RowsAccess() override {
    for (const auto& [row, id] : known_) QAccessible::deleteAccessibleInterface(id);
  }

  int childCount() const override { return static_cast<int>(rows().rowCount()); }
  int indexOfChild(const QAccessibleInterface* child) const override {
    for (const auto& [row, id] : known_) {
      if (QAccessible::accessibleInterface(id) == child) return row;
    }
    return -1;
  }
  QAccessibleInterface* child(int row) const override {
    if (row < 0 || row >= childCount()) return nullptr;
    const auto [at, isNew] = known_.try_emplace(row, QAccessible::Id(0));
    if (isNew) {
      at->second = QAccessible::registerAccessibleInterface(
          new RowAccess(rows(), static_cast<std::size_t>(row)));
    }
    return QAccessible::accessibleInterface(at->second);
  }
  QAccessibleInterface* childAt(int x, int y) const override {
    const QPoint place = rows().viewport()->mapFromGlobal(QPoint(x, y));
    if (!rows().viewport()->rect().contains(place)) return nullptr;
    const double row = (place.y() - rows().cellRect(0).top()) / GapRows::kRowHeight;
    return row < 0 ? nullptr : child(static_cast<int>(row));
  }
  QAccessibleInterface* focusChild() const override {
    const auto chosen = rows().chosenRow();
    return chosen ? child(static_cast<int>(*chosen)) : nullptr;
  }

 private:
  GapRows& rows() const { return *static_cast<GapRows*>(widget()); }

  mutable std::map<int, QAccessible::Id> known_;
};

QAccessibleInterface* rowAccess(const QString& className, QObject* object) {
  if (className != QLatin1String("swingroom::GapRows")) return nullptr;
  return new RowsAccess(*static_cast<GapRows*>(object));
}

}  // namespace

void installRowAccess() {
  static const bool once = [] {
    QAccessible::installFactory(rowAccess);
    return true;
  }();
  static_cast<void>(once);
}

void tellChosenRow(GapRows& rows) {
  if (!QAccessible::isActive() || !rows.chosenRow()) return;
  const QAccessible::Event kind = rows.parentWidget() && rows.parentWidget()->hasFocus()
                                      ? QAccessible::Focus
                                      : QAccessible::Selection;
  QAccessibleEvent event(&rows, kind);
  event.setChild(static_cast<int>(*rows.chosenRow()));
  QAccessible::updateAccessibility(&event);
}

}  // namespace swingroom
