#pragma once

namespace swingroom {

class GapRows;

/// From now on assistive technology sees the ribbon's rows as a list: each row with its words, its
/// place, and whether it is the chosen one.
void installRowAccess();

/// Tells it that another row is the chosen one.
void tellChosenRow(GapRows& rows);

}  // namespace swingroom
