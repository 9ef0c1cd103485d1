#pragma once

#include <Eigen/Geometry>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Whether the surface is its own reflection in a plane: corners, middles of edges and of triangles
/// of the reflection all lie on it. A mesh without triangles is.
/// @param through,normal  The plane, in the mesh's frame; the normal of any length but 0.
/// @param withinMm  How far off the surface such a point may be.
bool isOwnMirrorImage(const TriangleMesh& mesh, const Eigen::Vector3d& through,
                      const Eigen::Vector3d& normal, double withinMm = 1e-3);

}  // namespace swingroom
