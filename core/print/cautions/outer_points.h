#pragma once

#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Unit directions spread evenly over the sphere; the same at each call.
std::vector<Vector3d> spreadDirections(std::size_t count);

/// Corners of a part that reach farthest out in some direction: some of its convex hull's.
struct OuterPoints {
  std::vector<Vector3d> points;
  /// Pairs of `points` that are farthest out on opposite sides, as differences.
  std::vector<Vector3d> spans;
  double reachMm = 0;  ///< No corner of the mesh is farther from `centre`.
  Vector3d centre = Vector3d::Zero();
};

OuterPoints outerPoints(const TriangleMesh& mesh);

/// The smallest circle round points of a plane.
struct Circle {
  Eigen::Vector2d centre = Eigen::Vector2d::Zero();
  double radius = 0;
};

/// Welzl, New Results and New Trends in Computer Science, 1991, as three nested loops.
Circle leastCircle(const std::vector<Eigen::Vector2d>& points);

}  // namespace swingroom
