#pragma once

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// About how much of surface A faces surface B nearer than `withinMm`, mm2.
/// @param X_AB  Pose of B's frame in A's.
double facingArea(const TriangleMesh& a, const BoundingTree& b, const Pose& X_AB, double withinMm);

}  // namespace swingroom
