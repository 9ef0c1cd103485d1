#include "app/models/print/print_tables.h"

#include "app/models/print/joint_tables.h"
#include "app/models/print/weight_tables.h"

namespace swingroom {

std::vector<PrintTable> printTablesOf(const PrintKnown& known) {
  std::vector<PrintTable> tables{wallsTable(known), fitsTable(known), gripsTable(known),
                                 seamsTable(known), holdTable(known), standTable(known),
                                 weightTable(known)};
  std::erase_if(tables, [](const PrintTable& table) { return table.rows.empty(); });
  return tables;
}

}  // namespace swingroom
