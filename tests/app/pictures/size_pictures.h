#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The forms of part files, units and sizes, and drawings on the figure's sides.
void takeSizes(Photographer& photographer);

}  // namespace swingroom
