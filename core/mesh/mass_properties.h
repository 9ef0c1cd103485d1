#pragma once

#include <Eigen/Core>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Volume, centroid and inertia of the solid that a closed surface bounds, at density 1 per mm3.
struct MassProperties {
  double volumeMm3 = 0;  ///< Negative if the faces look inwards.
  Eigen::Vector3d centroid = Eigen::Vector3d::Zero();
  /// About the centroid, axes of the mesh's frame, mm5; off the diagonal -integral(xy).
  Eigen::Matrix3d inertia = Eigen::Matrix3d::Zero();
};

/// Exact for the faceted solid up to rounding. Meaningless for an open surface: ask `examine` first.
/// Mirtich, "Fast and Accurate Computation of Polyhedral Mass Properties", J. Graphics Tools 1(2), 1996.
MassProperties massProperties(const TriangleMesh& mesh);

}  // namespace swingroom
