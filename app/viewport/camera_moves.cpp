#include "app/viewport/camera_moves.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

constexpr double kLeastSpanMm = 0.02, kMostSpanMm = 1e6;

double shortWay(double angleRad) {
  return std::remainder(angleRad, 2 * kPi);
}

/// How far to a side the points reach, seen with an opening of `slope`, and where the middle is.
struct SideFit {
  double high = -1e300, low = -1e300;
  void add(double offset, double depth, double slope) {
    high = std::max(high, offset - slope * depth);
    low = std::max(low, -offset - slope * depth);
  }
  double middle() const { return 0.5 * (high - low); }
  double extent() const { return high + low; }
};

}  // namespace

ViewCamera orbited(const ViewCamera& camera, const Vector3d& pivot_W, double yawRad,
                   double pitchRad) {
  const Vector3d off = camera.p_WTarget - pivot_W;
  const double x = off.dot(camera.right_W()), y = off.dot(camera.upward_W());
  const double z = off.dot(camera.towards_W());
  ViewCamera moved = camera;
  moved.yawRad = shortWay(camera.yawRad + yawRad);
  moved.pitchRad = std::clamp(camera.pitchRad + pitchRad, -0.5 * kPi, 0.5 * kPi);
  moved.p_WTarget = pivot_W + x * moved.right_W() + y * moved.upward_W() + z * moved.towards_W();
  return moved;
}

ViewCamera panned(const ViewCamera& camera, const ViewSize& size, const Vector3d& grabbed_W,
                  const Eigen::Vector2d& from, const Eigen::Vector2d& to) {
  const ViewProjection projection(camera, size);
  const double depth = projection.depthMm(grabbed_W);
  ViewCamera moved = camera;
  moved.p_WTarget += projection.pointAt(from, depth) - projection.pointAt(to, depth);
  return moved;
}

ViewCamera zoomed(const ViewCamera& camera, const Vector3d& point_W, double factor) {
  ViewCamera moved = camera;
  moved.spanMm = std::clamp(camera.spanMm * factor, kLeastSpanMm, kMostSpanMm);
  moved.p_WTarget = point_W + (moved.spanMm / camera.spanMm) * (camera.p_WTarget - point_W);
  return moved;
}

ViewCamera lookingAlong(const ViewCamera& camera, const Vector3d& towards_W) {
  ViewCamera moved = camera;
  const Vector3d back = -towards_W.normalized();
  moved.pitchRad = std::asin(std::clamp(back.dot(camera.up_W), -1.0, 1.0));
  const double ahead = back.dot(camera.front_W), aside = back.dot(camera.sideways_W());
  if (std::hypot(ahead, aside) > 1e-9) moved.yawRad = std::atan2(aside, ahead);
  return moved;
}

ViewCamera fitted(const ViewCamera& camera, const ViewSize& size,
                  const std::vector<Vector3d>& points_W, double margin) {
  if (points_W.empty()) return camera;
  const double free = 1 - 2 * margin;
  const double half = free * std::tan(0.5 * kViewAngleRad);
  const double wide = (size.width - 2 * margin * size.smaller()) / (free * size.smaller());
  const double tall = (size.height - 2 * margin * size.smaller()) / (free * size.smaller());
  const double slope = camera.perspective ? half : 0;
  SideFit across, upward;
  double nearest = 1e300, farthest = -1e300;
  for (const Vector3d& p : points_W) {
    const double depth = p.dot(camera.towards_W());
    across.add(p.dot(camera.right_W()), depth, slope * wide);
    upward.add(p.dot(camera.upward_W()), depth, slope * tall);
    nearest = std::min(nearest, depth), farthest = std::max(farthest, depth);
  }
  const double middle = 0.5 * (nearest + farthest);
  ViewCamera moved = camera;
  if (camera.perspective) {
    const double eye =
        -std::max(across.extent() / (2 * half * wide), upward.extent() / (2 * half * tall));
    moved.spanMm = 2 * std::tan(0.5 * kViewAngleRad) * (middle - eye);
  } else {
    moved.spanMm = std::max(across.extent() / wide, upward.extent() / tall) / free;
  }
  moved.spanMm = std::clamp(moved.spanMm, kLeastSpanMm, kMostSpanMm);
  moved.p_WTarget = across.middle() * camera.right_W() + upward.middle() * camera.upward_W() +
                    middle * camera.towards_W();
  return moved;
}

ViewCamera between(const ViewCamera& from, const ViewCamera& to, double part) {
  if (part >= 1) return to;
  ViewCamera camera = to;
  camera.yawRad = from.yawRad + part * shortWay(to.yawRad - from.yawRad);
  camera.pitchRad = from.pitchRad + part * (to.pitchRad - from.pitchRad);
  camera.spanMm = from.spanMm * std::pow(to.spanMm / from.spanMm, part);
  camera.p_WTarget = from.p_WTarget + part * (to.p_WTarget - from.p_WTarget);
  return camera;
}

}  // namespace swingroom
