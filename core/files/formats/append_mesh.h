#pragma once

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Adds a mesh to another, without joining corners.
inline void append(TriangleMesh& all, const TriangleMesh& mesh) {
  const auto first = static_cast<std::uint32_t>(all.vertices.size());
  all.vertices.insert(all.vertices.end(), mesh.vertices.begin(), mesh.vertices.end());
  for (const auto& [a, b, c] : mesh.triangles)
    all.triangles.push_back({a + first, b + first, c + first});
}

}  // namespace swingroom
