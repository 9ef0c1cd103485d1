#pragma once

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Whether two triangles of a mesh meet anywhere but at the corners and edges that they share:
/// settled exactly, for coordinates as files carry them (`exact::side`). Triangles without area
/// have to be found otherwise.
bool meetBeyondShared(const TriangleMesh& mesh, const Triangle& a, const Triangle& b);

/// Whether its corners are in one line, exactly.
bool isFlat(const TriangleMesh& mesh, const Triangle& t);

}  // namespace swingroom
