#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The page of modes and steps, moved by hand, in error, renaming and dragging on the line.
void takeMotion(Photographer& photographer);

}  // namespace swingroom
