#pragma once

#include <Eigen/Core>
#include <array>

namespace swingroom {

/// Corners of one placed triangle, mm.
using TriangleCorners = std::array<Eigen::Vector3d, 3>;

/// Two points, one on each shape, that are nearest to each other.
struct ClosestPoints {
  Eigen::Vector3d onA;
  Eigen::Vector3d onB;
  double distanceMm = 0;
};

/// Nearest point of a triangle, which may be degenerate.
/// Ericson, Real-Time Collision Detection (2005), 5.1.5.
Eigen::Vector3d closestPointOnTriangle(const Eigen::Vector3d& p, const TriangleCorners& triangle);

/// Nearest points of segments a0-a1 and b0-b1, either of which may be a point. Nearly parallel segments
/// are right to about 1e-15 of their length.
/// Lumelsky, Information Processing Letters 21 (1985); the parameters come from cross products, which do
/// not cancel as the usual determinant does.
ClosestPoints closestBetweenSegments(const Eigen::Vector3d& a0, const Eigen::Vector3d& a1,
                                     const Eigen::Vector3d& b0, const Eigen::Vector3d& b1);

/// Nearest points of two triangles; distance 0 and one common point if they touch or cross.
/// Nearly touching triangles are right to rounding (about 1e-15 of the coordinates).
ClosestPoints closestBetweenTriangles(const TriangleCorners& a, const TriangleCorners& b);

}  // namespace swingroom
