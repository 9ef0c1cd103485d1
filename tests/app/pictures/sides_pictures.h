#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// One more of a part, and the other side of the tug from its port side.
void takeSides(Photographer& photographer);

}  // namespace swingroom
