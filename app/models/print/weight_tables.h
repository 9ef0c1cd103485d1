#pragma once

#include "app/models/print/print_tables.h"

namespace swingroom {

/// What keeps each joint where it stands, the worst of all modes.
PrintTable holdTable(const PrintKnown& known);
/// How the figure stands, by mode.
PrintTable standTable(const PrintKnown& known);
/// Masses, by part; the whole first.
PrintTable weightTable(const PrintKnown& known);

}  // namespace swingroom
