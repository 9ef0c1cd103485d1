#pragma once

#include "app/models/print/print_tables.h"

namespace swingroom {

PrintTable wallsTable(const PrintKnown& known);
PrintTable fitsTable(const PrintKnown& known);
PrintTable gripsTable(const PrintKnown& known);
PrintTable seamsTable(const PrintKnown& known);

}  // namespace swingroom
