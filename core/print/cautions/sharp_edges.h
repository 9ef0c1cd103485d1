#pragma once

#include <optional>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Edges and corners of a part that may be felt as sharp: where its two faces enclose less than 60
/// degrees of material (common practice; no standard's test). An edge that is rounded by several
/// faces is not seen, however small its radius.
struct SharpEdges {
  std::size_t edges = 0;  ///< Runs of edges that hang together.
  double lengthMm = 0;    ///< Of all.
  double leastRad = 0;    ///< Between the faces, where it is sharpest.
  std::optional<Vector3d> sharpest_P;
  std::size_t points = 0;  ///< Corners whose edges all lie within a cone of 60 degrees.
  std::optional<Vector3d> point_P;

  bool operator==(const SharpEdges&) const = default;
};

/// @param mesh  Welded.
SharpEdges sharpEdges(const TriangleMesh& mesh);

}  // namespace swingroom
