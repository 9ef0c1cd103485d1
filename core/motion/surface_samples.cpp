#include "core/motion/surface_samples.h"

#include <cmath>

namespace swingroom {
namespace {

Vector3d twiceAreaOf(const TriangleMesh& mesh, std::size_t t) {
  return (mesh.corner(t, 1) - mesh.corner(t, 0)).cross(mesh.corner(t, 2) - mesh.corner(t, 0));
}

}  // namespace

std::vector<SurfaceSample> sampledByArea(const TriangleMesh& mesh, std::size_t count) {
  double area = 0;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) area += twiceAreaOf(mesh, t).norm() / 2;
  std::vector<SurfaceSample> samples;
  const double share = area / static_cast<double>(count);
  double due = share / 2;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d across = twiceAreaOf(mesh, t);
    const double here = across.norm() / 2;
    for (; due < here; due += share) {
      // Additive sequence of the plastic number: even in the unit square, folded into the triangle.
      const auto n = static_cast<double>(samples.size() + 1);
      double u = std::fmod(0.7548776662466927 * n, 1.0), v = std::fmod(0.5698402909980532 * n, 1.0);
      if (u + v > 1) u = 1 - u, v = 1 - v;
      const Vector3d& a = mesh.corner(t, 0);
      const Vector3d p = a + u * (mesh.corner(t, 1) - a) + v * (mesh.corner(t, 2) - a);
      samples.push_back({p, across.normalized(), share});
    }
    due -= here;
  }
  return samples;
}

}  // namespace swingroom
