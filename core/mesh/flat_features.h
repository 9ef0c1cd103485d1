#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "core/mesh/features.h"
#include "core/mesh/surface_topology.h"

namespace swingroom {

/// Triangles round `seed`, over shared edges, whose corners lie on its plane to 0.01 mm; rising.
std::vector<std::uint32_t> flatRegion(const TriangleMesh& mesh, const SurfaceTopology& topology,
                                      std::uint32_t seed);

/// The plane of a flat region; none if it has no area.
std::optional<PlaneFeature> planeOf(const TriangleMesh& mesh, const SurfaceTopology& topology,
                                    const std::vector<std::uint32_t>& triangles);

/// The straight edge nearest to `point`, among those of the flat region or smooth piece that
/// `triangle` is part of, as far as it runs straight to 0.01 mm.
/// @param mayBe  Whether the edge between two triangles counts; one that is flat never does.
std::optional<EdgeFeature> straightEdgeNear(
    const TriangleMesh& mesh, const SurfaceTopology& topology, std::uint32_t triangle,
    const Eigen::Vector3d& point, double withinMm,
    const std::function<bool(std::uint32_t, std::uint32_t)>& mayBe);

}  // namespace swingroom
