#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "app/models/print/print_rows.h"

namespace swingroom {

/// One line of what the print checks measured, found fault with or not.
struct PrintTableRow {
  QString name;  ///< A part, a joint or a mode.
  QString fact;  ///< "0.80 mm", "tips at 12.3°"
  QString told;  ///< All that is known of it, a line each.
  std::vector<PartId> parts;
  std::optional<ModeId> mode;
  std::optional<Vector3d> at_P;  ///< In the frame of the first of `parts`, mm.

  bool operator==(const PrintTableRow&) const = default;
};

/// What was measured of one subject.
struct PrintTable {
  PrintSection section = PrintSection::walls;
  QString name;     ///< "Parts", "Stands"
  QString summary;  ///< Beside the name: "40 parts", "214 g"
  QString caution;
  std::vector<PrintTableRow> rows;

  bool operator==(const PrintTable&) const = default;
};

/// In the page's order; those with nothing in them are left out.
std::vector<PrintTable> printTablesOf(const PrintKnown& known);

/// All of it, a line each.
QString textOf(const PrintTable& table);

}  // namespace swingroom
