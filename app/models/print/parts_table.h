#pragma once

#include "app/models/print/print_tables.h"

namespace swingroom {

/// The set to print: one line for parts of one mesh that are printed alike, with sizes, mass, how
/// it stands on the bed, and its thinnest wall.
PrintTable partsTable(const PrintKnown& known);

}  // namespace swingroom
