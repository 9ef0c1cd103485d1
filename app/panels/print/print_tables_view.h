#pragma once

#include <QWidget>
#include <functional>
#include <vector>

#include "app/models/print/print_tables.h"

class QVBoxLayout;

namespace swingroom {

class PrintTableView;

/// What the print checks measured, a heading a subject; each opens to a quiet list.
class PrintTablesView : public QWidget {
  Q_OBJECT

 public:
  explicit PrintTablesView(QWidget* parent = nullptr);

  /// Those that were open stay open.
  void setTables(const std::vector<PrintTable>& tables);
  /// The list of a subject; null: there is none.
  PrintTableView* table(PrintSection section, const QString& name) const;
  const std::vector<PrintTableView*>& tables() const { return views_; }

 Q_SIGNALS:
  void rowWanted(PrintSection section, const PrintTableRow& row);

 private:
  std::vector<PrintTableView*> views_;
  QVBoxLayout* column_;
};

}  // namespace swingroom
