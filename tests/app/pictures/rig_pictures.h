#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// The page of the rig, the joint's card and picking.
void takeRig(Photographer& photographer);

}  // namespace swingroom
