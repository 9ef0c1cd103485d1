#pragma once

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// The same triangles, in the same order, over vertices of which no two are equal (exact comparison of
/// coordinates, -0 as 0). Unused vertices are dropped; first use gives the order.
TriangleMesh welded(const TriangleMesh& mesh);

}  // namespace swingroom
