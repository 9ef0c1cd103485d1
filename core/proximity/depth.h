#pragma once

#include <cstddef>

#include "core/base/transform.h"
#include "core/proximity/solid.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// How deep a surface reaches into a solid.
struct Depth {
  double depthMm = 0;  ///< Reached at `point`; the true greatest depth is in [depthMm, upperMm]. 0: not inside.
  double upperMm = 0;
  Vector3d point_S = Vector3d::Zero();    ///< The surface's deepest point, in the solid's frame S.
  Vector3d nearest_S = Vector3d::Zero();  ///< Of the solid's boundary, nearest to it: the way out.
};

struct DepthSearch {
  double accuracyMm = 0.005;
  double atLeastMm = 0;  ///< Depths up to this are of no interest: 0 may be answered for them.
  std::size_t mostQueries = 20'000;  ///< Then the bracket is left wider than `accuracyMm`.
};

/// Greatest distance from a point of `surface` (edges and faces included) inside `solid` to the solid's
/// boundary. Branch and bound over the surface: over a flat piece the distance to one boundary triangle is
/// convex, so its corners bound it; and no distance changes faster than its point moves.
/// Without an inside the answer is 0: ask `solid.hasInside()`. Const, safe from several threads.
/// @param X_SF  Pose of the surface's frame F in the solid's frame.
Depth depthInside(const BoundingTree& surface, const Solid& solid, const Pose& X_SF, const DepthSearch& search = {});

}  // namespace swingroom
