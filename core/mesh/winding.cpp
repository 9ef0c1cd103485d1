#include "core/mesh/winding.h"

#include <algorithm>

namespace swingroom {
namespace {

using Eigen::Vector3d;

/// Which side of the line from `a` to `b`, seen along x, `p` lies on: positive on the left.
/// Exactly opposite for the edge taken the other way round, so that no ray slips between
/// neighbours.
double sideOf(const Vector3d& a, const Vector3d& b, const Vector3d& p) {
  const bool swapped = b.y() < a.y() || (b.y() == a.y() && b.z() < a.z());
  const Vector3d& s = swapped ? b : a;
  const Vector3d& t = swapped ? a : b;
  const double side = (t.y() - s.y()) * (p.z() - s.z()) - (t.z() - s.z()) * (p.y() - s.y());
  return swapped ? -side : side;
}

/// What the edge adds to the winding of a planar outline round `p`, seen along x.
int edgeCrossing(const Vector3d& a, const Vector3d& b, const Vector3d& p) {
  const bool aBelow = a.z() <= p.z();
  const bool bBelow = b.z() <= p.z();
  if (aBelow == bBelow) return 0;
  const double side = sideOf(a, b, p);
  if (aBelow && side > 0) return 1;
  if (bBelow && side < 0) return -1;
  return 0;
}

/// 1 if the ray from `p` along +x leaves the solid through the triangle, -1 if it enters, else 0.
int rayCrossing(const Vector3d& a, const Vector3d& b, const Vector3d& c, const Vector3d& p) {
  const int winding = edgeCrossing(a, b, p) + edgeCrossing(b, c, p) + edgeCrossing(c, a, p);
  if (winding == 0) return 0;
  const Vector3d normal = (b - a).cross(c - a);
  const double height = normal.dot(a - p);
  // The triangle's plane is met at height / normal.x along x, and normal.x has the winding's sign.
  return (winding > 0) == (height > 0) ? winding : 0;
}

}  // namespace

WindingCounter::WindingCounter(std::vector<Vector3d> points) {
  byY_.reserve(points.size());
  for (std::size_t i = 0; i < points.size(); ++i) byY_.push_back({points[i], i});
  std::sort(byY_.begin(), byY_.end(),
            [](const Place& a, const Place& b) { return a.point.y() < b.point.y(); });
}

void WindingCounter::add(const TriangleMesh& mesh, std::span<const std::uint32_t> triangles,
                         std::vector<int>& counts) const {
  for (const std::uint32_t t : triangles) {
    const Vector3d& a = mesh.corner(t, 0);
    const Vector3d& b = mesh.corner(t, 1);
    const Vector3d& c = mesh.corner(t, 2);
    const auto [low, high] = std::minmax({a.y(), b.y(), c.y()});
    const double farthest = std::max({a.x(), b.x(), c.x()});
    const auto first = std::partition_point(
        byY_.begin(), byY_.end(), [low = low](const Place& p) { return p.point.y() < low; });
    for (auto place = first; place != byY_.end() && place->point.y() <= high; ++place) {
      if (place->point.x() > farthest) continue;
      counts[place->index] += rayCrossing(a, b, c, place->point);
    }
  }
}

}  // namespace swingroom
