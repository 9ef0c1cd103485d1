#pragma once

#include <functional>

#include "core/mesh/triangle_mesh.h"

namespace swingroom::samples {

/// What the surface needs of its edges.
struct Fineness {
  /// Longest edge that is wanted at a place, mm; what is large leaves the edge alone.
  std::function<double(const Eigen::Vector3d&)> edgeMm;
  /// Where a place is moved to afterwards.
  std::function<Eigen::Vector3d(const Eigen::Vector3d&)> moved;
  /// Whether the surface must keep its triangles there (holes, pins).
  std::function<bool(const Eigen::Vector3d&)> locked;
  /// Edges whose middle strays farther than this from the moved surface are halved ...
  double strayMm = 0.02;
  /// ... unless they are shorter than twice this.
  double leastMm = 0.16;
};

/// The closed mesh with its edges halved, longest first, until they are as fine as wanted; within
/// flat faces they are turned so that triangles are full (Delaunay). The shape stays the same to
/// 0.002 mm. An edge with both ends locked stays as it is. Same mesh and functions, same result.
TriangleMesh refined(const TriangleMesh& mesh, const Fineness& fineness);

}  // namespace swingroom::samples
