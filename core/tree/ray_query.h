#pragma once

#include <limits>
#include <optional>

#include "core/tree/bounding_tree.h"

namespace swingroom {

/// Where a ray first meets a surface.
struct RayHit {
  double distanceMm = 0;       ///< From the origin along the unit direction.
  std::uint32_t triangle = 0;  ///< Index into `tree.triangles()`.
};

/// The nearest point where the ray from `origin` along `direction` (unit, both in the tree's frame)
/// meets the surface, from either side; none if not nearer than `withinMm`. Edges belong to their
/// triangles, so that nothing is missed between two. A triangle seen exactly on edge is not hit.
/// Moeller and Trumbore, Journal of Graphics Tools 2(1), 1997. Const, safe from several threads.
std::optional<RayHit> firstHit(const BoundingTree& tree, const Eigen::Vector3d& origin,
                               const Eigen::Vector3d& direction,
                               double withinMm = std::numeric_limits<double>::infinity());

}  // namespace swingroom
