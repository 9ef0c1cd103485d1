#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// A real arm: the form that it is begun by, with and without its package; the window with it.
void takeRobots(Photographer& photographer);

}  // namespace swingroom
