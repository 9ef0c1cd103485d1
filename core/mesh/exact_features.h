#pragma once

#include <Eigen/Geometry>

#include "core/mesh/features.h"

namespace swingroom {

/// The same features on a surface that `X` has moved, scaled evenly or mirrored.
Features transformed(const Features& features, const Eigen::Affine3d& X);

/// Features found by fits, each with its exact one in its place where there is one: the same side,
/// radius and axis to 0.02 mm, over stretches that overlap. What only one of the two lists has stays as
/// it was found, or is left out: faces too small to be found are no pins and holes.
Features withExact(const Features& found, const Features& exact);

}  // namespace swingroom
