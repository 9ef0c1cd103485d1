#pragma once

#include <functional>
#include <optional>
#include <utility>
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

/// Edges of a mesh that are edges of the body: where faces bend by 3 degrees or end.
class BodyEdges {
 public:
  /// @param mesh  Must outlive this.
  /// @param mayBe  Whether the edge between two triangles counts; one that is flat never does.
  BodyEdges(const TriangleMesh& mesh, const SurfaceTopology& topology,
            const std::function<bool(std::uint32_t, std::uint32_t)>& mayBe);

  /// The edge nearest to `point`, as far as it runs straight to 0.01 mm; none within `withinMm`.
  std::optional<EdgeFeature> straightNear(const Eigen::Vector3d& point, double withinMm) const;

 private:
  using VertexPair = std::pair<std::uint32_t, std::uint32_t>;

  Eigen::Vector3d walked(const VertexPair& from, const Eigen::Vector3d& origin,
                         const Eigen::Vector3d& along, double& residual) const;

  const TriangleMesh* mesh_;
  std::vector<VertexPair> edges_;
  std::vector<VertexPair> meets_;  ///< Each edge from both ends, sorted.
};

}  // namespace swingroom
