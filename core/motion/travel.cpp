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

template <typename Across>
double TravelBounds::bend(const Vector3d& centre_A, double radius, const Across& across) const {
  double acceleration = 0;
  double innerSpeed = 0;  // What the joints nearer to B add.
  for (std::size_t i = axes_.size(); i-- > 0;) {
    const MovingAxis& axis = axes_[i];
    double speed = std::abs(axis.slideRateMm);
    if (axis.turnRateRad != 0) {
      // Joints farther out carry axis and point alike; only those nearer to B change their distance.
      const double reach =
          (centre_A - axis.point).cross(axis.direction).norm() + radius + halfWidth_ * innerSpeed;
      speed += std::abs(axis.turnRateRad) * reach;
      acceleration += std::abs(axis.turnRateRad) * across(i) * (speed + 2 * innerSpeed);
    }
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
  double speedSum = 0;
  for (std::size_t i = axes_.size(); i-- > 0;) {
    const MovingAxis& axis = axes_[i];
    double speed = std::abs(axis.slideRateMm);
    if (axis.turnRateRad != 0) {
      const double reach =
          (centre_A - axis.point).cross(axis.direction).norm() + radius + halfWidth_ * speedSum;
      speed += std::abs(axis.turnRateRad) * reach;
    }
    speedSum += speed;
  }
  return halfWidth_ * speedSum;
}

}  // namespace swingroom
