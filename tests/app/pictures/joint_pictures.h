#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// Joints moved by hand: how far they go, where they are stopped, their handles.
void takeJoints(Photographer& photographer);

}  // namespace swingroom
