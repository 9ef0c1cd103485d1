#include "core/motion/travel.h"

#include <algorithm>
#include <cmath>

namespace swingroom {

using Eigen::Vector3d;

TravelBounds::TravelBounds(const MotionAtInstant& motion, double halfWidth)
    : axes_(motion.axes), halfWidth_(halfWidth) {
  double turned = 0;
  turnedBefore_.reserve(axes_.size());
  for (const MovingAxis& axis : axes_) {
    const Vector3d turn = axis.turnRateRad * axis.direction;
    angular_ += turn;
    linear_ += axis.slideRateMm * axis.direction - turn.cross(axis.point);
    turnedBefore_.push_back(turned);
    turned += halfWidth * std::abs(axis.turnRateRad);
  }
}

double TravelBounds::speedFrom(const MovingAxis& axis, const Vector3d& centre_A, double radius,
                               double innerSpeed) const {
  const double slide = std::abs(axis.slideRateMm);
  if (axis.turnRateRad == 0) return slide;
  const double reach =
      (centre_A - axis.point).cross(axis.direction).norm() + radius + halfWidth_ * innerSpeed;
  return slide + std::abs(axis.turnRateRad) * reach;
}

template <typename Across>
double TravelBounds::bend(const Vector3d& centre_A, double radius, const Across& across) const {
  double acceleration = 0;
  double innerSpeed = 0;
  for (std::size_t i = axes_.size(); i-- > 0;) {
    const double speed = speedFrom(axes_[i], centre_A, radius, innerSpeed);
    const double turnRateRad = std::abs(axes_[i].turnRateRad);
    if (turnRateRad != 0) acceleration += turnRateRad * across(i) * (speed + 2 * innerSpeed);
    innerSpeed += speed;
  }
  return 0.5 * halfWidth_ * halfWidth_ * acceleration;
}

double TravelBounds::bendMm(const Vector3d& centre_A, double radius, const Vector3d& n) const {
  return bend(centre_A, radius, [&](std::size_t i) {
    return std::min(1.0, n.cross(axes_[i].direction).norm() + turnedBefore_[i]);
  });
}

double TravelBounds::bendMm(const Vector3d& centre_A, double radius) const {
  return bend(centre_A, radius, [](std::size_t) { return 1.0; });
}

double TravelBounds::travelMm(const Vector3d& centre_A, double radius) const {
  double speed = 0;
  for (std::size_t i = axes_.size(); i-- > 0;) speed += speedFrom(axes_[i], centre_A, radius, speed);
  return halfWidth_ * speed;
}

}  // namespace swingroom
