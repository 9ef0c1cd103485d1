#include "core/motion/travel.h"

#include <algorithm>
#include <cmath>

namespace swingroom {

using Eigen::Matrix3d;
using Eigen::Vector3d;

namespace {

Matrix3d crossMatrix(const Vector3d& v) {
  Matrix3d m;
  m << 0, -v.z(), v.y(), v.z(), 0, -v.x(), -v.y(), v.x(), 0;
  return m;
}

}  // namespace

TravelBounds::TravelBounds(const MotionAtInstant& motion, double halfWidth)
    : axes_(motion.axes), halfWidth_(halfWidth) {
  double turned = 0;
  turnedBefore_.reserve(axes_.size());
  Vector3d swing = Vector3d::Zero();  // Rate of the turn rate.
  for (const MovingAxis& axis : axes_) {
    const Vector3d turn = axis.turnRateRad * axis.direction;
    // The joints so far carry this one's axis along.
    const Vector3d tilt = angular_.cross(axis.direction);
    const Vector3d carried = velocityAt(axis.point);
    swing += axis.turnRateRad * tilt;
    bendLinear_ += axis.slideRateMm * tilt - axis.turnRateRad * tilt.cross(axis.point) - turn.cross(carried);
    angular_ += turn;
    linear_ += axis.slideRateMm * axis.direction - turn.cross(axis.point);
    turnedBefore_.push_back(turned);
    turned += halfWidth * std::abs(axis.turnRateRad);
  }
  bendLinear_ += angular_.cross(linear_);
  bendTurn_ = crossMatrix(swing) + crossMatrix(angular_) * crossMatrix(angular_);
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

std::vector<double> TravelBounds::restsMm(const Vector3d& centre_A, double radius) const {
  const std::size_t count = axes_.size();
  std::vector<double> speeds(count), rests(count, 0);
  double inner = 0;
  for (std::size_t i = count; i-- > 0;) inner += speeds[i] = speedFrom(axes_[i], centre_A, radius, inner);
  const double share = halfWidth_ * halfWidth_ * halfWidth_ / 6;
  for (std::size_t i = 0; i < count; ++i) {
    const double rate = std::abs(axes_[i].turnRateRad);
    if (rate == 0) continue;
    double sum = rate * speeds[i];
    double between = 0;
    for (std::size_t m = i + 1; m < count; ++m) {
      const double rateOfM = std::abs(axes_[m].turnRateRad);
      sum += speeds[m] * (3 * rate + 3 * rateOfM + 6 * between);
      between += rateOfM;
    }
    rests[i] = share * rate * sum;
  }
  return rests;
}

std::vector<double> TravelBounds::bendsMm(const Vector3d& centre_A, double radius) const {
  std::vector<double> bends(axes_.size(), 0);
  double inner = 0;
  for (std::size_t i = axes_.size(); i-- > 0;) {
    const double speed = speedFrom(axes_[i], centre_A, radius, inner);
    bends[i] = 0.5 * halfWidth_ * halfWidth_ * std::abs(axes_[i].turnRateRad) * (speed + 2 * inner);
    inner += speed;
  }
  return bends;
}

double TravelBounds::restMm(const std::vector<double>& restsMm, const Vector3d& n) const {
  double sum = 0;
  for (std::size_t i = 0; i < restsMm.size(); ++i) {
    if (restsMm[i] > 0) sum += restsMm[i] * std::min(1.0, n.cross(axes_[i].direction).norm() + turnedBefore_[i]);
  }
  return sum;
}

double TravelBounds::travelMm(const Vector3d& centre_A, double radius) const {
  double speed = 0;
  for (std::size_t i = axes_.size(); i-- > 0;) speed += speedFrom(axes_[i], centre_A, radius, speed);
  return halfWidth_ * speed;
}

}  // namespace swingroom
