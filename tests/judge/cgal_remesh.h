#pragma once

#include "core/mesh/triangle_mesh.h"

/// What remeshing and decimation make of a surface, by CGAL: meshes with other triangles that are
/// honest copies.
namespace swingroom::judge {

/// Triangles of about one size; edges that bend by more than 40 degrees stay.
/// Botsch & Kobbelt, Symposium on Geometry Processing 2004.
/// @param mesh  Welded and closed.
/// @returns Nothing if it is no manifold at its corners: that kind of mesh cannot be remeshed here.
TriangleMesh remeshed(const TriangleMesh& mesh, double edgeMm);

/// The same with fewer triangles. Lindstrom & Turk, IEEE Visualization 1998.
/// @param share  Of the edges that are left.
TriangleMesh decimated(const TriangleMesh& mesh, double share);

}  // namespace swingroom::judge
