#include "core/picture/surface.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/picture/smoothing.h"

namespace swingroom {
namespace {

/// A plane seen on edge has no slope; nothing is steeper than this many mm of depth a mm across.
constexpr double kSteepest = 20;

Eigen::Vector2d slopeOf(const Vector3d& normal_W, const Camera& camera) {
  const double ahead = normal_W.dot(camera.towards_W);
  const Eigen::Vector2d across(-normal_W.dot(camera.right_W), normal_W.dot(camera.up_W));
  const double length = across.norm();
  if (length <= 0) return Eigen::Vector2d::Zero();
  const double steepness = std::min(length, kSteepest * std::abs(ahead));
  const double sign = ahead < 0 ? -1 : 1;
  if (std::abs(ahead) <= 0) return across * (kSteepest / length / camera.pixelsPerMm);
  return across * (sign * steepness / std::abs(ahead) / length / camera.pixelsPerMm);
}

void addShape(const PictureShape& shape, std::uint32_t number, const Smoothing& smoothing,
              const Camera& camera, SeenSurface& surface, Eigen::AlignedBox3d& box) {
  const Eigen::Matrix3f R_WP = shape.X_WP.linear().cast<float>();
  const auto firstFace = static_cast<std::uint32_t>(surface.triangles.size());
  for (std::size_t i = 0; i < shape.mesh->triangles.size(); ++i) {
    DrawnTriangle drawn;
    bool drawable = true;
    for (int k = 0; k < 3; ++k) {
      const Vector3d p_W = shape.X_WP * shape.mesh->corner(i, k);
      drawable = drawable && isDrawable(p_W);
      if (!drawable) break;
      drawn.corners[static_cast<std::size_t>(k)] = camera.seen(p_W);
      box.extend(p_W);
      drawn.normals_W[static_cast<std::size_t>(k)] =
          R_WP * smoothing.corners[i][static_cast<std::size_t>(k)];
    }
    if (!drawable) continue;
    drawn.flat_W = R_WP * smoothing.flat[i];
    drawn.slope = slopeOf(drawn.flat_W.cast<double>(), camera);
    drawn.shape = number;
    drawn.face = firstFace + smoothing.faces[i];
    surface.triangles.push_back(drawn);
  }
}

}  // namespace

SeenSurface makeSeenSurface(const PictureRequest& request, const Camera& camera) {
  SeenSurface surface;
  Eigen::AlignedBox3d box;
  std::map<const TriangleMesh*, Smoothing> smoothings;  // Several instances share one mesh.
  for (std::size_t i = 0; i < request.shapes.size(); ++i) {
    const PictureShape& shape = request.shapes[i];
    const auto [place, isNew] = smoothings.try_emplace(shape.mesh);
    if (isNew) place->second = smoothed(*shape.mesh);
    surface.firsts.push_back(surface.triangles.size());
    addShape(shape, static_cast<std::uint32_t>(i), place->second, camera, surface, box);
  }
  surface.firsts.push_back(surface.triangles.size());
  if (box.isEmpty()) return surface;
  surface.lowestZ = box.min().z();
  surface.p_WMiddle = box.center();
  surface.radiusMm = box.diagonal().norm() / 2;
  return surface;
}

}  // namespace swingroom
