#pragma once

#include <limits>
#include <optional>

#include "core/tree/bounding_tree.h"

namespace swingroom {

/// The surface's point nearest to some point.
struct SurfacePoint {
  Eigen::Vector3d point;
  double distanceMm = 0;
  std::uint32_t triangle = 0;  ///< Index into `tree.triangles()`.
};

/// What `closestPoint` may make use of.
struct PointHints {
  /// Points at this distance or farther are of no interest.
  double withinMm = std::numeric_limits<double>::infinity();
  /// A point at this distance or nearer is enough: the search may end with the first such one.
  double enoughMm = 0;
  /// The answer may be this much farther than the nearest. Deep inside a round solid, where all of it
  /// is about equally far, this saves nearly everything.
  double slackMm = 0;
  /// A triangle that is probably near, e.g. the answer for a neighbouring point.
  std::optional<std::uint32_t> triangle;
};

/// Nearest point of the surface to `p` (in the tree's frame); none if it is not nearer than `hints.withinMm`.
/// @param looked  If given, gains the number of nodes that were opened.
std::optional<SurfacePoint> closestPoint(const BoundingTree& tree, const Eigen::Vector3d& p,
                                         const PointHints& hints = {},
                                         std::size_t* looked = nullptr);

/// How far the node's box reaches from its centre along `n`, unit.
inline double reachAlong(const BoundingTree::Node& node, const Eigen::Vector3d& n) {
  return node.half.dot((node.axes.transpose() * n).cwiseAbs());
}

/// How many times the closed surface winds round `p`: 0 outside, 1 in a sound solid, -1 in one that is
/// inside-out. Counted along rays in fixed directions; a ray that grazes an edge is not trusted.
/// Meaningless for an open surface.
int windingNumber(const BoundingTree& tree, const Eigen::Vector3d& p);

}  // namespace swingroom
