#pragma once

#include <cstdint>
#include <vector>

#include "core/mesh/health.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// The faces of closed shells that reach into each other, without what is inside another.
struct SeenFaces {
  TriangleMesh faces;                     ///< Not welded.
  std::vector<std::uint32_t> triangleOf;  ///< By face: the mesh's triangle. Rising.
};

/// A triangle is kept whole if nothing of it is hidden, looked at in pieces of 1 mm; where it is
/// hidden in part it is split to 0.1 mm, and pieces across the line are kept.
SeenFaces seenFaces(const TriangleMesh& mesh, const MeshHealth& health, unsigned threads);

}  // namespace swingroom
