#include "core/picture/floor.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

constexpr double kLeastSquarePixels =
    5;  ///< Smaller squares would be grey mush: every 5th or 10th line then.

double smoothStep(double from, double to, double value) {
  const double part = std::clamp((value - from) / (to - from), 0.0, 1.0);
  return part * part * (3 - 2 * part);
}

}  // namespace

Floor::Floor(const PictureRequest& request, const Camera& camera, const SeenSurface& surface)
    : shown_(request.floor && camera.towards_W.z() < -0.05 && surface.radiusMm > 0),
      camera_(camera),
      z_(surface.lowestZ),
      p_WMiddle_(surface.p_WMiddle),
      reachMm_(surface.radiusMm) {
  if (!shown_) return;
  const Vector3d origin = hit(0, 0), right = hit(1, 0) - origin, down = hit(0, 1) - origin;
  double widest = 0;
  for (int axis = 0; axis < 2; ++axis) {
    const double rate = std::sqrt(right[axis] * right[axis] + down[axis] * down[axis]);
    mmAPixel_[static_cast<std::size_t>(axis)] = rate;
    widest = std::max(widest, rate);
  }
  for (const double wider : {5.0, 2.0, 5.0, 2.0}) {
    if (spacingMm_ < kLeastSquarePixels * widest) spacingMm_ *= wider;
  }
}

Vector3d Floor::hit(double x, double y) const {
  const Vector3d p = camera_.pointAt(x, y, 0);
  return p + camera_.towards_W * ((z_ - p.z()) / camera_.towards_W.z());
}

double Floor::fadeAt(const Vector3d& p_W) const {
  const double far = (p_W - p_WMiddle_).head<2>().norm();
  return 1 - smoothStep(0.85 * reachMm_, 1.45 * reachMm_, far);
}

std::optional<double> Floor::depthAt(double x, double y) const {
  if (!shown_) return std::nullopt;
  const Vector3d p_W = hit(x, y);
  if (fadeAt(p_W) <= 0) return std::nullopt;
  return camera_.seen(p_W).z();
}

float Floor::gridAt(const Vector3d& p_W) const {
  double line = 0;
  for (int axis = 0; axis < 2; ++axis) {
    const double squares = p_W[axis] / spacingMm_;
    const double offMm = std::abs(squares - std::round(squares)) * spacingMm_;
    line = std::max(line,
                    std::clamp(1.0 - offMm / mmAPixel_[static_cast<std::size_t>(axis)], 0.0, 1.0));
  }
  return static_cast<float>(line);
}

Paint Floor::paintAt(double x, double y, float openness) const {
  const Vector3d p_W = hit(x, y);
  const auto fade = static_cast<float>(fadeAt(p_W));
  const Paint ground = toPaint(kGround);
  const Paint lined = mix(ground, toPaint(kGridLine), gridAt(p_W) * fade);
  const Paint shadow = lined.cwiseProduct(Paint(0.66F, 0.65F, 0.645F));
  return mix(lined, shadow, (1 - openness) * fade);
}

}  // namespace swingroom
