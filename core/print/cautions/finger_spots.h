#pragma once

#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A place of a part's surface from which openings are looked at, in the part's frame.
struct FingerSpot {
  Vector3d point;
  Vector3d normal;  ///< Unit, outwards.
};

/// Spots about `spacingMm` apart on faces, and corners of triangles, one a cell of that size and
/// way of facing; no more than `most`.
std::vector<FingerSpot> fingerSpots(const TriangleMesh& mesh, double spacingMm, std::size_t most);

}  // namespace swingroom
