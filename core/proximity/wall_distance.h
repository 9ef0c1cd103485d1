#pragma once

#include "core/mesh/closest_points.h"

namespace swingroom {

/// Distances of `count` points from one triangle, four at a time; as `closestPointOnTriangle`, to
/// rounding. Of a triangle that is nearly a line its edges are taken: never less than the true
/// distance. The same bytes whatever instructions the processor has.
void distancesToTriangle(const Eigen::Vector3d* points, int count, const TriangleCorners& triangle,
                         double* mm);

}  // namespace swingroom
