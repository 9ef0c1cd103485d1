#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// Parts are saved while the window is open; the history of checks.
void takeSaves(Photographer& photographer);

}  // namespace swingroom
