#pragma once

#include <optional>

#include "app/viewport/paint/view_paint.h"
#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

struct PaintVertex {
  Eigen::Vector3f position, normal;
  float figureMm = 0;
  float state = 0;  ///< Of PieceState, the same in all corners of a piece.
};

/// A painted surface made ready for drawing and for asking.
struct PaintMesh {
  std::shared_ptr<const PaintedSurface> surface;
  Vector3d middle = Vector3d::Zero();  ///< In the mesh's frame; vertices are relative to it.
  std::vector<PaintVertex> vertices;
  std::vector<std::uint32_t> indices;  ///< Three a piece that is drawn.
  /// The pieces in each triangle of the mesh: places `first[t]` to `first[t + 1]` of `pieces`.
  std::vector<std::uint32_t> first, pieces;
};

/// Pieces that are not finite, or whose source the mesh has not, are left out.
/// @param mesh  The part's own: gives the normals, so that pieces are as smooth as it is.
PaintMesh makePaintMesh(const TriangleMesh& mesh, std::shared_ptr<const PaintedSurface> surface);

/// The piece in a triangle of the mesh that is nearest to a point (in the mesh's frame).
std::optional<std::size_t> pieceAt(const PaintMesh& paint, std::size_t triangle, const Vector3d& p);

}  // namespace swingroom
