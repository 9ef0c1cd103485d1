#pragma once

#include "core/files/urdf/robot_wish.h"

namespace CLI {
class App;
}

namespace swingroom {

/// What of `new` only robots (URDF) know: which geometry, where packages are, states and poses.
/// @param wish  Outlives the command line.
void addRobotOptions(CLI::App& make, RobotWish& wish);

}  // namespace swingroom
