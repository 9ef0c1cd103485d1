#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The room of the tug's head: while it is looked, its map, and where it has least.
void takeRoom(Photographer& photographer);

}  // namespace swingroom
