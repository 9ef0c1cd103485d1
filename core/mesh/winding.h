#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <span>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// How often closed surfaces wind round each of several points: 1 inside a solid, 0 outside it, -1
/// inside a surface whose faces look inwards. Meaningless for open surfaces and for points that lie
/// on the surface.
class WindingCounter {
 public:
  explicit WindingCounter(std::vector<Eigen::Vector3d> points);

  /// Adds to `counts` (one a point) what the closed surface of these triangles of `mesh`
  /// contributes. Counts crossings of the ray along +x; the cost is near linear for small
  /// triangles, because the points are sorted once.
  void add(const TriangleMesh& mesh, std::span<const std::uint32_t> triangles,
           std::vector<int>& counts) const;

 private:
  struct Place {
    Eigen::Vector3d point;
    std::size_t index;
  };
  std::vector<Place> byY_;
};

}  // namespace swingroom
