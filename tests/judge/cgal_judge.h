#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "core/mesh/triangle_mesh.h"

/// Distances and intersections by CGAL, to hold our own against. All in exact arithmetic, only the
/// last result is rounded: in doubles, CGAL's triangle distance said 0.147 of one pair that crosses
/// among 53 659 pairs of turned lattice triangles. Slow: for meshes of some hundred triangles.
namespace swingroom::judge {

using Corners = std::array<Eigen::Vector3d, 3>;
using Ends = std::array<Eigen::Vector3d, 2>;

double squaredDistance(const Ends& a, const Ends& b);
double squaredDistance(const Corners& a, const Corners& b);
double squaredDistance(const Eigen::Vector3d& point, const Corners& triangle);

/// Squared least distance of two surfaces: all pairs of triangles, in order of their boxes'
/// distance, until no box is nearer than the nearest triangles. 0 if they touch or cross. Right to
/// 1e-13 of it.
double squaredDistance(const TriangleMesh& a, const TriangleMesh& b);

bool meet(const Corners& a, const Corners& b);

/// Whether any triangle of `a` touches or crosses any of `b`.
bool surfacesMeet(const TriangleMesh& a, const TriangleMesh& b);

enum class Side { outside, on, inside };

/// On which side of the closed, welded, manifold surface each point is.
/// @throws std::invalid_argument if the surface is not closed and manifold.
std::vector<Side> sidesOf(const TriangleMesh& mesh, const std::vector<Eigen::Vector3d>& points);

/// Least distance of each point and the surface, in doubles, by CGAL's tree.
std::vector<double> distancesTo(const TriangleMesh& mesh, const std::vector<Eigen::Vector3d>& points);

struct Soundness {
  bool manifold = false;      ///< CGAL takes every face, and no corner belongs to two fans of faces.
  bool closed = false;
  std::size_t crossings = 0;  ///< Pairs of triangles that cross or touch but at what they share.
};
Soundness soundnessOf(const TriangleMesh& mesh);

/// Squared least distance of a point and a surface.
double squaredDistance(const TriangleMesh& mesh, const Eigen::Vector3d& point);

}  // namespace swingroom::judge
