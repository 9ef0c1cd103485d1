#include "app/panels/print/print_table_view.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/panels/plain_widgets.h"
#include "app/panels/rows_view.h"

namespace swingroom {

PrintTableView::PrintTableView(QWidget* parent) : QWidget(parent) {
  heading_ = quietButton(QString(), QString(), this);
  heading_->setCheckable(true);
  heading_->setMinimumWidth(40);
  rows_ = new RowsView(model_, QString(), this);
  told_ = softText(QString(), this);
  told_->setContentsMargins(16, 2, 12, 4);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2);
  auto* row = new QHBoxLayout;
  row->addWidget(heading_);
  row->addStretch(1);
  column->addLayout(row);
  column->addWidget(rows_);
  column->addWidget(told_);
  connect(heading_, &QPushButton::toggled, this, &PrintTableView::show);
  connect(rows_, &RowsView::chosen, this, &PrintTableView::choose);
  show();
}

void PrintTableView::setTable(const PrintTable& table) {
  if (table.rows != table_.rows) chosen_.reset();
  table_ = table;
  rows_->setAccessibleName(table.name);
  show();
}

void PrintTableView::choose(int row) {
  if (row < 0 || row >= static_cast<int>(table_.rows.size())) return;
  chosen_ = row;
  show();
  Q_EMIT rowWanted(table_.section, table_.rows[static_cast<std::size_t>(row)]);
}

void PrintTableView::show() {
  const bool open = heading_->isChecked();
  heading_->setText(tr("%1, %2", "a heading and what is in it").arg(table_.name, table_.summary));
  heading_->setToolTip(open ? tr("Fold it") : tr("Show what was measured"));
  std::vector<NamedRow> rows;
  for (std::size_t i = 0; i < table_.rows.size(); ++i) {
    const PrintTableRow& row = table_.rows[i];
    rows.push_back({row.name, {}, row.fact, row.told, chosen_ && static_cast<int>(i) == *chosen_});
  }
  model_.setRows(rows);
  rows_->setVisible(open);
  QStringList told;
  if (chosen_) told += table_.rows[static_cast<std::size_t>(*chosen_)].told;
  told += table_.caution;
  told.removeAll(QString());
  told_->setText(told.join(QLatin1Char('\n')));
  told_->setVisible(open && !told.isEmpty());
}

}  // namespace swingroom
