#pragma once

#include "app/models/print/print_tables.h"

namespace swingroom {

/// Each joint's fit as drawn and as printed, its play, and what holds it in each mode.
PrintTable jointsTable(const PrintKnown& known);
PrintTable gripsTable(const PrintKnown& known);
PrintTable seamsTable(const PrintKnown& known);

}  // namespace swingroom
