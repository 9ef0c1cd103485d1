#include "core/mesh/triangle_mesh.h"

#include <utility>

namespace swingroom {

Eigen::AlignedBox3d boundsOf(const TriangleMesh& mesh) {
  Eigen::AlignedBox3d box;
  for (const auto& vertex : mesh.vertices) box.extend(vertex);
  return box;
}

TriangleMesh transformed(const TriangleMesh& mesh, const Eigen::Affine3d& X) {
  TriangleMesh moved = mesh;
  for (auto& vertex : moved.vertices) vertex = X * vertex;
  if (X.linear().determinant() < 0) {
    for (auto& triangle : moved.triangles) std::swap(triangle[1], triangle[2]);
  }
  return moved;
}

}  // namespace swingroom
