#include "app/viewport/view_camera.h"

#include <algorithm>
#include <cmath>

namespace swingroom {

Vector3d ViewCamera::right_W() const {
  return std::sin(yawRad) * front_W - std::cos(yawRad) * sideways_W();
}

Vector3d ViewCamera::towards_W() const {
  const Vector3d level = std::cos(yawRad) * front_W + std::sin(yawRad) * sideways_W();
  return -std::cos(pitchRad) * level - std::sin(pitchRad) * up_W;
}

Vector3d ViewCamera::upward_W() const {
  // From yaw and pitch, not by a cross product with up: it is right straight from above, too.
  const Vector3d level = std::cos(yawRad) * front_W + std::sin(yawRad) * sideways_W();
  return std::cos(pitchRad) * up_W - std::sin(pitchRad) * level;
}

double ViewCamera::distanceMm() const {
  return 0.5 * spanMm / std::tan(0.5 * kViewAngleRad);
}

ViewCamera uprightCamera(const Vector3d& up, const Vector3d& front) {
  ViewCamera camera;
  if (up.allFinite() && up.norm() > 0) camera.up_W = up.normalized();
  const Vector3d level = front - camera.up_W * camera.up_W.dot(front);
  const bool usable = level.allFinite() && level.norm() > 1e-6 * front.norm();
  camera.front_W = usable ? level.normalized() : camera.up_W.unitOrthogonal();
  return camera;
}

ViewProjection::ViewProjection(const ViewCamera& camera, const ViewSize& size)
    : camera_(camera), size_{std::max(size.width, 1.0), std::max(size.height, 1.0)} {
  Eigen::Matrix3d axes;
  axes.row(0) = camera.right_W();
  axes.row(1) = camera.upward_W();
  axes.row(2) = camera.towards_W();
  X_VW_.linear() = axes;
  X_VW_.translation() = -(axes * camera.eye_W());
  X_VW_.makeAffine();
}

double ViewProjection::mmPerPixel(double depthMm) const {
  const double atTarget = camera_.spanMm / size_.smaller();
  return camera_.perspective ? atTarget * depthMm / camera_.distanceMm() : atTarget;
}

Eigen::Vector2d ViewProjection::pixelOf(const Vector3d& p_V) const {
  const double mm = mmPerPixel(p_V.z());
  return {0.5 * size_.width + p_V.x() / mm, 0.5 * size_.height - p_V.y() / mm};
}

Vector3d ViewProjection::pointAt(const Eigen::Vector2d& pixel, double depthMm) const {
  const double mm = mmPerPixel(depthMm);
  return camera_.eye_W() + mm * (pixel.x() - 0.5 * size_.width) * camera_.right_W() -
         mm * (pixel.y() - 0.5 * size_.height) * camera_.upward_W() + depthMm * camera_.towards_W();
}

ViewRay ViewProjection::rayAt(const Eigen::Vector2d& pixel) const {
  if (!camera_.perspective) return {pointAt(pixel, 0), camera_.towards_W()};
  const Vector3d eye = camera_.eye_W();
  return {eye, (pointAt(pixel, camera_.distanceMm()) - eye).normalized()};
}

DepthRange ViewProjection::rangeOf(const Vector3d& centre_W, double radiusMm) const {
  const double depth = depthMm(centre_W);
  DepthRange range{depth - radiusMm, depth + radiusMm};
  if (!camera_.perspective) return range;
  range.farMm = std::max(range.farMm, 1e-3 * camera_.distanceMm());
  // Depth buffers have 24 bits: a nearer plane than this would cost the far parts their order.
  range.nearMm = std::max(range.nearMm, std::min(2e-3 * range.farMm, 0.2 * camera_.distanceMm()));
  return range;
}

Eigen::Matrix4d ViewProjection::clipFromView(const DepthRange& range) const {
  Eigen::Matrix4d M = Eigen::Matrix4d::Zero();
  const double n = range.nearMm, f = range.farMm;
  const double perPixel = camera_.perspective ? mmPerPixel(1) : mmPerPixel(0);
  M(0, 0) = 2 / (perPixel * size_.width);
  M(1, 1) = 2 / (perPixel * size_.height);
  if (camera_.perspective) {
    M(2, 2) = (f + n) / (f - n);
    M(2, 3) = -2 * f * n / (f - n);
    M(3, 2) = 1;
  } else {
    M(2, 2) = 2 / (f - n);
    M(2, 3) = -(f + n) / (f - n);
    M(3, 3) = 1;
  }
  return M;
}

}  // namespace swingroom
