#pragma once

#include "app/models/print/print_tables.h"

namespace swingroom {

/// How the figure stands in each mode, and how far from tipping.
PrintTable standsTable(const PrintKnown& known);

}  // namespace swingroom
