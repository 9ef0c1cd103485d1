#pragma once

#include "app/viewport/view_mesh.h"

namespace swingroom {

/// Meshes of fewer triangles are drawn as they are, also while something moves.
constexpr std::size_t kLeastCoarseTriangles = 8'000;

/// About an eighth of the triangles, 150 000 at most: the points of each cell of a grid become one,
/// with a vertex for each of the six ways that the surface may face there. Rossignac and Borrel,
/// Multi-resolution 3D approximations for rendering complex scenes, 1993 (from memory). Linear.
/// @returns Empty for a mesh that is small.
CoarseMesh coarsened(const std::vector<ViewVertex>& vertices,
                     const std::vector<std::uint32_t>& indices);

/// All points of a small mesh; of a large one the farthest in each of some directions.
std::vector<Eigen::Vector3f> outlineOf(const std::vector<Eigen::Vector3f>& points);

}  // namespace swingroom
