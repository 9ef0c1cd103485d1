#include "app/viewport/tools/handle_geometry.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector2d;

constexpr double kReachPixels = 8;  ///< A knob or ring is held from this near.
constexpr double kEdgeOn = 0.17;    ///< Sine: planes, and axes, seen flatter are not aimed at.
constexpr int kRingSides = 96;

double pixelsToSegment(const Vector2d& p, const Vector2d& a, const Vector2d& b) {
  const Vector2d along = b - a;
  const double length2 = along.squaredNorm();
  const double t = length2 > 0 ? std::clamp((p - a).dot(along) / length2, 0.0, 1.0) : 0;
  return (a + t * along - p).norm();
}

double pixelsToTrack(const ViewHandle& handle, const ViewProjection& view, const Vector2d& pixel) {
  double nearest = std::numeric_limits<double>::infinity();
  const auto points = trackOf(handle, view, handle.least, handle.greatest, 1);
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (!view.isBefore(points[i - 1]) || !view.isBefore(points[i])) continue;
    nearest =
        std::min(nearest, pixelsToSegment(pixel, view.pixel(points[i - 1]), view.pixel(points[i])));
  }
  return nearest;
}

}  // namespace

double ringRadiusMm(const ViewHandle& handle, const ViewProjection& view, double ratio) {
  return kRingPixels * ratio * view.mmPerPixel(view.depthMm(handle.point_W));
}

Vector3d trackPoint(const ViewHandle& handle, const ViewProjection& view, double value,
                    double ratio) {
  switch (handle.kind) {
    case ViewHandle::Kind::slide:
      return handle.point_W + value * handle.axis_W;
    case ViewHandle::Kind::radius: {
      // The rim that is seen from here.
      const ViewCamera& camera = view.camera();
      const Vector3d ray =
          camera.perspective ? Vector3d(handle.point_W - camera.eye_W()) : camera.towards_W();
      const Vector3d side = handle.axis_W.cross(ray);
      const bool endOn = side.norm() < 1e-3 * ray.norm();
      return handle.point_W + value * (endOn ? camera.right_W() : side.normalized());
    }
    case ViewHandle::Kind::turn:
      break;
  }
  const Vector3d across = handle.axis_W.cross(handle.zero_W);
  return handle.point_W + ringRadiusMm(handle, view, ratio) *
                              (std::cos(value) * handle.zero_W + std::sin(value) * across);
}

std::vector<Vector3d> trackOf(const ViewHandle& handle, const ViewProjection& view, double from,
                              double to, double ratio) {
  const bool turns = handle.kind == ViewHandle::Kind::turn;
  if (turns && to - from > 2 * kPi) to = from + 2 * kPi;  // Round once is enough.
  const int sides =
      turns ? std::max(1, static_cast<int>(std::ceil(kRingSides * (to - from) / (2 * kPi)))) : 1;
  std::vector<Vector3d> points;
  for (int i = 0; i <= sides; ++i) {
    points.push_back(trackPoint(handle, view, from + (to - from) * i / sides, ratio));
  }
  return points;
}

Vector3d knobOf(const ViewHandle& handle, const ViewProjection& view, double ratio) {
  return trackPoint(handle, view, handle.value, ratio);
}

std::optional<std::size_t> handleAt(const std::vector<ViewHandle>& handles,
                                    const ViewProjection& view, const Vector2d& pixel) {
  std::optional<std::size_t> found;
  double nearest = kKnobPixels + 0.5 * kReachPixels;
  for (std::size_t i = 0; i < handles.size(); ++i) {
    const Vector3d knob_W = knobOf(handles[i], view, 1);
    if (!view.isBefore(knob_W)) continue;
    const double off = (view.pixel(knob_W) - pixel).norm();
    if (off < nearest) nearest = off, found = i;
  }
  if (found) return found;
  nearest = kReachPixels;
  for (std::size_t i = 0; i < handles.size(); ++i) {
    if (handles[i].kind != ViewHandle::Kind::turn || handles[i].isGrip) continue;
    const double off = pixelsToTrack(handles[i], view, pixel);
    if (off < nearest) nearest = off, found = i;
  }
  return found;
}

std::optional<double> placeAlong(const ViewHandle& handle, const ViewRay& ray) {
  const double along = handle.axis_W.dot(ray.direction_W), square = 1 - along * along;
  if (square < kEdgeOn * kEdgeOn) return std::nullopt;
  const Vector3d from = handle.point_W - ray.origin_W;
  return (along * ray.direction_W.dot(from) - handle.axis_W.dot(from)) / square;
}

std::optional<double> angleAbout(const ViewHandle& handle, const ViewRay& ray) {
  const double towards = handle.axis_W.dot(ray.direction_W);
  if (std::abs(towards) < kEdgeOn) return std::nullopt;
  const double t = handle.axis_W.dot(handle.point_W - ray.origin_W) / towards;
  const Vector3d arm = ray.origin_W + t * ray.direction_W - handle.point_W;
  const double x = arm.dot(handle.zero_W), y = arm.dot(handle.axis_W.cross(handle.zero_W));
  if (x == 0 && y == 0) return std::nullopt;
  return std::atan2(y, x);
}

double distanceFromAxis(const ViewHandle& handle, const ViewRay& ray) {
  const Vector3d from = handle.point_W - ray.origin_W,
                 square = handle.axis_W.cross(ray.direction_W);
  if (square.norm() < kEdgeOn) return (from - from.dot(ray.direction_W) * ray.direction_W).norm();
  return std::abs(from.dot(square)) / square.norm();
}

HandleDrag::HandleDrag(const ViewHandle& taken, const ViewProjection& view, const Vector2d& pixel)
    : handle_(taken), value_(taken.value), last_(pixel) {
  const ViewRay ray = view.rayAt(pixel);
  if (taken.kind == ViewHandle::Kind::turn) {
    const auto angle = angleAbout(taken, ray);
    flat_ = !angle;
    // Of the two places that an edge-on ring has there, the one on this side is held.
    const auto points = trackOf(taken, view, -kPi, kPi, 1);
    const auto nearer = [&](const Vector3d& a, const Vector3d& b) {
      const auto cost = [&](const Vector3d& p) {
        return (view.pixel(p) - pixel).norm() +
               1e-3 * view.depthMm(p) / view.mmPerPixel(view.depthMm(p));
      };
      return cost(a) < cost(b);
    };
    held_W_ = *std::min_element(points.begin(), points.end(), nearer);
    tangent_W_ = taken.axis_W.cross(held_W_ - taken.point_W).normalized();
  } else if (taken.kind == ViewHandle::Kind::slide) {
    flat_ = !placeAlong(taken, ray);
    held_W_ = knobOf(taken, view, 1);
    // An axis that comes straight at the eye is pulled upwards.
    tangent_W_ = taken.axis_W.dot(view.camera().towards_W()) < 0
                     ? Vector3d(-view.camera().upward_W())
                     : view.camera().upward_W();
  }
}

double HandleDrag::moveTo(const Vector2d& pixel, const ViewProjection& view, bool fine) {
  value_ += (fine ? 0.1 : 1.0) * step(pixel, view);
  last_ = pixel;
  return value_;
}

double HandleDrag::step(const Vector2d& pixel, const ViewProjection& view) const {
  if (flat_) return alongTangent(pixel, view);
  const ViewRay before = view.rayAt(last_), now = view.rayAt(pixel);
  switch (handle_.kind) {
    case ViewHandle::Kind::slide: {
      const auto a = placeAlong(handle_, before), b = placeAlong(handle_, now);
      return a && b ? *b - *a : 0;
    }
    case ViewHandle::Kind::radius:
      return distanceFromAxis(handle_, now) - distanceFromAxis(handle_, before);
    case ViewHandle::Kind::turn:
      break;
  }
  const auto a = angleAbout(handle_, before), b = angleAbout(handle_, now);
  return a && b ? std::remainder(*b - *a, 2 * kPi) : 0;
}

/// As a rack that the picture's plane pulls.
double HandleDrag::alongTangent(const Vector2d& pixel, const ViewProjection& view) const {
  const double mmAPixel = view.mmPerPixel(view.depthMm(held_W_));
  const Vector2d way = view.pixel(held_W_ + mmAPixel * tangent_W_) - view.pixel(held_W_);
  if (!(way.norm() > 1e-9)) return 0;
  const double mm = mmAPixel * (pixel - last_).dot(way.normalized());
  const bool turns = handle_.kind == ViewHandle::Kind::turn;
  return turns ? mm / (held_W_ - handle_.point_W).norm() : mm;
}

}  // namespace swingroom
