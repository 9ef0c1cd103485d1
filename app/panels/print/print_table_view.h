#pragma once

#include <QWidget>

#include "app/models/named_rows.h"
#include "app/models/print/print_tables.h"

class QLabel;
class QPushButton;

namespace swingroom {

class RowsView;

/// One subject: its heading, and while it is open its rows, and under them all that is known of the
/// one that was chosen.
class PrintTableView : public QWidget {
  Q_OBJECT

 public:
  explicit PrintTableView(QWidget* parent = nullptr);

  void setTable(const PrintTable& table);
  const PrintTable& table() const { return table_; }
  QPushButton& heading() { return *heading_; }
  RowsView& rows() { return *rows_; }
  QLabel& told() { return *told_; }

 Q_SIGNALS:
  void rowWanted(PrintSection section, const PrintTableRow& row);

 private:
  void show();
  void choose(int row);

  PrintTable table_;
  NamedRowsModel model_;
  std::optional<int> chosen_;
  QPushButton* heading_;
  RowsView* rows_;
  QLabel* told_;
};

}  // namespace swingroom
