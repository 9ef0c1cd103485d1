#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Which triangles of a welded mesh meet at an edge, and how they face.
struct SurfaceTopology {
  static constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

  /// @param mesh  Welded: triangles meet where they share two vertices.
  explicit SurfaceTopology(const TriangleMesh& mesh);

  /// Unit, by triangle; zero for one without area.
  std::vector<Eigen::Vector3d> normals;
  std::vector<double> areas;  ///< mm2.
  /// By triangle, across the edge from its corner i to the next; none at a rim, or where more than
  /// two triangles meet.
  std::vector<std::array<std::uint32_t, 3>> neighbours;

  /// Cosine of the bend over an edge; 1: flat.
  double cosBend(std::uint32_t a, std::uint32_t b) const { return normals[a].dot(normals[b]); }
};

}  // namespace swingroom
