#include "app/models/print/print_tables.h"

#include "app/models/print/joint_tables.h"
#include "app/models/print/parts_table.h"
#include "app/models/print/stands_table.h"

namespace swingroom {

std::vector<PrintTable> printTablesOf(const PrintKnown& known) {
  std::vector<PrintTable> tables{partsTable(known), jointsTable(known), gripsTable(known),
                                 seamsTable(known), standsTable(known)};
  std::erase_if(tables, [](const PrintTable& table) { return table.rows.empty(); });
  return tables;
}

QString textOf(const PrintTable& table) {
  QString text = QStringLiteral("%1, %2\n").arg(table.name, table.summary);
  for (const PrintTableRow& row : table.rows) {
    text += QStringLiteral("%1: %2\n").arg(row.name, row.fact);
    for (const QString& line : row.told.split(QLatin1Char('\n'), Qt::SkipEmptyParts))
      text += QStringLiteral("  %1\n").arg(line);
  }
  if (!table.caution.isEmpty()) text += table.caution + QLatin1Char('\n');
  return text.replace(QChar(QChar::Nbsp), QLatin1Char(' '));
}

}  // namespace swingroom
