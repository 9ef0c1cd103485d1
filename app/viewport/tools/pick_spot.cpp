#include "app/viewport/tools/pick_spot.h"

#include <algorithm>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

/// The tree has its triangles in an order of its own, with the mesh's own corners.
std::optional<std::size_t> inMesh(const TriangleMesh& mesh, const TriangleCorners& wanted) {
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto isCorner = [&](const Vector3d& p) {
      return p == wanted[0] || p == wanted[1] || p == wanted[2];
    };
    if (isCorner(mesh.corner(t, 0)) && isCorner(mesh.corner(t, 1)) && isCorner(mesh.corner(t, 2)))
      return t;
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::size_t> triangleAt(const ViewStage& stage, const ViewPick& hit) {
  const auto& surface = stage.scene().parts[hit.part.index].surface;
  const auto nearest = closestPoint(surface->tree, stage.pose(hit.part.index).inverse() * hit.p_W);
  if (!nearest) return std::nullopt;
  return inMesh(*surface->mesh, surface->tree.triangles()[nearest->triangle]);
}

std::optional<PickSpot> spotAt(const ViewStage& stage, const ViewProjection& view,
                               const Eigen::Vector2d& pixel) {
  const auto hit = stage.pick(view.rayAt(pixel), !view.camera().perspective);
  const auto snap = hit ? snapAt(stage, view, pixel) : std::nullopt;
  if (!hit || !snap) return std::nullopt;
  const auto triangle = triangleAt(stage, *hit);
  if (!triangle) return std::nullopt;
  return PickSpot{*snap, hit->p_W, *triangle};
}

}  // namespace swingroom
