#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Surfaces turn by more than this, degrees, at an edge that is drawn. A little above 30 so that a
/// prism of twelve sides is round whatever the rounding of its corners.
constexpr double kCreaseDeg = 30.5;

/// Which triangles of a mesh form one smooth face, and its normals for shading.
struct Smoothing {
  std::vector<std::uint32_t> faces;   ///< By triangle: number of its smooth face.
  std::vector<Eigen::Vector3f> flat;  ///< By triangle: unit normal, zero without area.
  std::vector<std::array<Eigen::Vector3f, 3>> corners;  ///< By triangle and corner: unit normal.
};

/// Triangles that share an edge (corners equal in every bit) and turn there by less than kCreaseDeg
/// are of one face. Linear in the number of triangles but for sorting.
Smoothing smoothed(const TriangleMesh& mesh);

}  // namespace swingroom
