#pragma once

#include <memory>
#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

/// The final word on touch, gap and inside, by CGAL's exact predicates and numbers. Reads nothing
/// of core but the mesh.
namespace swingroom::random_suite {

class ExactSurface {
 public:
  /// @throws std::invalid_argument if the surface is not closed and manifold.
  explicit ExactSurface(const TriangleMesh& mesh);

  const TriangleMesh& mesh() const;
  /// In the material of the part; a point on the surface is not.
  bool contains(const Eigen::Vector3d& p) const;
  /// One corner of each shell.
  const std::vector<Eigen::Vector3d>& shellCorners() const;

  struct Engine;

 private:
  friend bool meets(const ExactSurface&, const ExactSurface&, const Pose&);
  friend double exactGap(const ExactSurface&, const ExactSurface&, const Pose&, double);
  std::shared_ptr<const Engine> engine_;
};

/// Whether the surfaces touch or cross.
bool meets(const ExactSurface& a, const ExactSurface& b, const Pose& X_AB);

/// Least distance of the surfaces, right to 1e-12 of it: all pairs of triangles whose boxes are
/// within `guessMm`, which is doubled until there is one. 0 if they meet.
double exactGap(const ExactSurface& a, const ExactSurface& b, const Pose& X_AB, double guessMm);

/// Convex hull, outward-facing triangles. Needs four points that are not in a plane.
TriangleMesh convexHullOf(const std::vector<Eigen::Vector3d>& points);

}  // namespace swingroom::random_suite
