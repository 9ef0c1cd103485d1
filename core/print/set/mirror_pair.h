#pragma once

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Whether `b` is `a` reflected, and moved, corner by corner in the same order: made from one file
/// with and without a mirror. A shape that only looks like the other's reflection is not found.
bool isMirrorImage(const TriangleMesh& a, const TriangleMesh& b);

}  // namespace swingroom
