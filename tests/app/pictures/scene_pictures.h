#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The form of a file with many parts, with keyed moments and without, and what is made of it.
void takeScenes(Photographer& photographer);

}  // namespace swingroom
