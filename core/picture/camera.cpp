#include "core/picture/camera.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace swingroom {
namespace {

constexpr double kMargin = 0.07;         ///< Of the picture's smaller side, on each side.
constexpr double kLeastExtentMm = 1e-3;  ///< A single point is not blown up without end.

void turnTo(const PictureView& view, Camera& camera) {
  const bool finite = view.towards.allFinite() && view.up.allFinite();
  if (!finite || view.towards.stableNorm() <= 0 || view.up.stableNorm() <= 0) {
    throw std::invalid_argument("PictureView: towards and up must be finite and not zero");
  }
  camera.towards_W = view.towards.stableNormalized();
  const Vector3d across = camera.towards_W.cross(view.up.stableNormalized());
  if (across.norm() < 1e-6) throw std::invalid_argument("PictureView: towards lies along up");
  camera.right_W = across.normalized();
  camera.up_W = camera.right_W.cross(camera.towards_W);
}

Eigen::AlignedBox3d seenBox(const PictureRequest& request, const Camera& camera) {
  Eigen::AlignedBox3d box;
  for (const PictureShape& shape : request.shapes) {
    for (const Triangle& triangle : shape.mesh->triangles) {
      for (const std::uint32_t corner : triangle) {
        const Vector3d p_W = shape.X_WP * shape.mesh->vertices.at(corner);
        if (isDrawable(p_W)) box.extend(camera.seen(p_W));
      }
    }
  }
  for (const PictureDimension& dimension : request.dimensions) {
    for (const Vector3d& end_W : dimension.ends_W) {
      if (isDrawable(end_W)) box.extend(camera.seen(end_W));
    }
  }
  if (box.isEmpty()) box.extend(Vector3d::Zero());
  return box;
}

}  // namespace

bool isDrawable(const Vector3d& p_W) {
  return p_W.allFinite() && p_W.cwiseAbs().maxCoeff() <= kFarthestMm;
}

Vector3d Camera::seen(const Vector3d& p_W) const {
  const Vector3d q = p_W - p_WCentre;
  return {middleX + pixelsPerMm * right_W.dot(q), middleY - pixelsPerMm * up_W.dot(q),
          towards_W.dot(q)};
}

Vector3d Camera::pointAt(double x, double y, double depth) const {
  return p_WCentre + right_W * ((x - middleX) / pixelsPerMm) -
         up_W * ((y - middleY) / pixelsPerMm) + towards_W * depth;
}

Camera fitCamera(const PictureRequest& request) {
  Camera camera;
  turnTo(request.view, camera);
  camera.p_WCentre = Vector3d::Zero();
  Vector3d extent;
  if (request.view.focus) {
    const auto& [centre, radius] = *request.view.focus;
    if (!isDrawable(centre) || !(radius > 0) || radius > kFarthestMm) {
      throw std::invalid_argument("PictureView: focus must be finite, its radius above 0");
    }
    camera.p_WCentre = centre;
    extent = Vector3d::Constant(2 * radius);
  } else {
    const Eigen::AlignedBox3d box = seenBox(request, camera);
    camera.p_WCentre = camera.pointAt(box.center().x(), box.center().y(), box.center().z());
    extent = box.sizes();
  }
  const double margin = 2 * kMargin * std::min(request.width, request.height);
  camera.pixelsPerMm = std::min((request.width - margin) / std::max(extent.x(), kLeastExtentMm),
                                (request.height - margin) / std::max(extent.y(), kLeastExtentMm));
  camera.middleX = request.width / 2.0;
  camera.middleY = request.height / 2.0;
  return camera;
}

}  // namespace swingroom
