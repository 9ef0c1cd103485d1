#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Leaves out what an edit in place has taken away: triangles whose first two corners are one, and vertices at which
/// no triangle is left.
/// @param facesAt  By vertex, the triangles at it.
inline void dropWhatIsGone(TriangleMesh& mesh, const std::vector<std::vector<std::uint32_t>>& facesAt) {
  TriangleMesh left;
  std::vector<std::uint32_t> places(mesh.vertices.size());
  for (std::uint32_t v = 0; v < places.size(); ++v) {
    places[v] = static_cast<std::uint32_t>(left.vertices.size());
    if (!facesAt[v].empty()) left.vertices.push_back(mesh.vertices[v]);
  }
  for (const auto& [a, b, c] : mesh.triangles) {
    if (a != b) left.triangles.push_back({places[a], places[b], places[c]});
  }
  mesh = std::move(left);
}

}  // namespace swingroom
