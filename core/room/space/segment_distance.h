#pragma once

#include <cstdint>
#include <span>

#include "core/tree/bounding_tree.h"

namespace swingroom {

/// No more than the distance of the segment a-b and the node's box, mm: of the box, in the node's
/// axes, round the segment.
double segmentToBox(const BoundingTree::Node& node, const Eigen::Vector3d& a, const Eigen::Vector3d& b);

/// Distance of the segment a-b, which may be a point, and a triangle, mm.
double segmentToTriangle(const Eigen::Vector3d& a, const Eigen::Vector3d& b, const TriangleCorners& t);

/// What tells at once that most triangles are far from a segment.
struct TriangleBound {
  explicit TriangleBound(const TriangleCorners& t);
  /// No point of the segment is nearer than `mm`, which is more than 0. Not all such segments are told.
  bool isFarther(const Eigen::Vector3d& a, const Eigen::Vector3d& b, double mm) const;

  Eigen::Vector3d centre, normal;
  double radius = 0, height = 0;
};

/// Distance of the segment and the triangles under `nodes`, mm; `belowMm` if it is not below that.
double segmentToSurface(const BoundingTree& tree, std::span<const std::uint32_t> nodes,
                        const Eigen::Vector3d& a, const Eigen::Vector3d& b, double belowMm);

}  // namespace swingroom
