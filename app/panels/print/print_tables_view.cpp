#include "app/panels/print/print_tables_view.h"

#include <QVBoxLayout>

#include "app/panels/plain_widgets.h"
#include "app/panels/print/print_table_view.h"

namespace swingroom {

PrintTablesView::PrintTablesView(QWidget* parent)
    : QWidget(parent), column_(new QVBoxLayout(this)) {
  column_->setContentsMargins(0, 8, 0, 0);
  column_->setSpacing(4);
  column_->addWidget(labelOf(tr("Measured"), "heading", this));
  setVisible(false);
}

void PrintTablesView::setTables(const std::vector<PrintTable>& tables) {
  // By name: a subject that is gone for a while is only hidden.
  for (PrintTableView* view : views_) view->setVisible(false);
  for (std::size_t i = 0; i < tables.size(); ++i) {
    PrintTableView* view = table(tables[i].section, tables[i].name);
    if (!view) {
      view = new PrintTableView(this);
      connect(view, &PrintTableView::rowWanted, this, &PrintTablesView::rowWanted);
      column_->insertWidget(static_cast<int>(i) + 1, view);
      views_.insert(views_.begin() + static_cast<std::ptrdiff_t>(std::min(i, views_.size())), view);
    }
    view->setTable(tables[i]);
    view->setVisible(true);
  }
  setVisible(!tables.empty());
}

PrintTableView* PrintTablesView::table(PrintSection section, const QString& name) const {
  for (PrintTableView* view : views_) {
    if (view->table().section == section && view->table().name == name) return view;
  }
  return nullptr;
}

}  // namespace swingroom
