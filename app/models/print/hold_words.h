#pragma once

#include <QStringList>

#include "app/models/print/print_tables.h"

namespace swingroom {

/// What gravity asks of a joint in each mode and what holds it there, a line a mode. A joint that
/// droops says so in its row too, which then stands in that mode.
void addHold(const PrintKnown& known, JointId joint, PrintTableRow& row, QStringList& told);

}  // namespace swingroom
