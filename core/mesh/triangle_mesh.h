#pragma once

#include <Eigen/Core>
#include <Eigen/Geometry>
#include <array>
#include <cstdint>
#include <vector>

namespace swingroom {

/// Indices into `vertices`, counter-clockwise seen from outside.
using Triangle = std::array<std::uint32_t, 3>;

/// A surface of triangles, in mm, in a frame that its user names. Need not be closed or clean.
struct TriangleMesh {
  std::vector<Eigen::Vector3d> vertices;
  std::vector<Triangle> triangles;

  const Eigen::Vector3d& corner(std::size_t triangle, int i) const {
    return vertices[triangles[triangle][static_cast<std::size_t>(i)]];
  }
  bool operator==(const TriangleMesh&) const = default;
};

/// Axis-aligned box round all vertices; empty for a mesh without vertices.
Eigen::AlignedBox3d boundsOf(const TriangleMesh& mesh);

/// The same surface moved by `X`; a reflection turns the triangles round so that outside stays outside.
TriangleMesh transformed(const TriangleMesh& mesh, const Eigen::Affine3d& X);

}  // namespace swingroom
