#pragma once

#include <optional>

#include "core/mesh/triangle_mesh.h"
#include "core/print/walls/wall_figures.h"

namespace swingroom {

/// How `mesh` is the reflection of `other`, triangle by triangle as the loader mirrors a part;
/// none: it is not. To 1e-9 of its size.
std::optional<Eigen::Affine3d> reflectionBetween(const TriangleMesh& mesh,
                                                 const TriangleMesh& other);

/// The map of a mesh, for the mesh's reflection by `X`.
WallMap reflected(const WallMap& map, const Eigen::Affine3d& X);

}  // namespace swingroom
