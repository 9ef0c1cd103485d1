#pragma once

#include <Eigen/Geometry>
#include <numbers>

namespace swingroom {

using Eigen::Vector3d;

/// Rigid pose. `X_WP` is the pose of P in W; inner letters meet: X_WC = X_WP * X_PC.
using Pose = Eigen::Isometry3d;

constexpr double kPi = std::numbers::pi;
constexpr double radFromDeg(double angleDeg) { return angleDeg * (kPi / 180.0); }
constexpr double degFromRad(double angleRad) { return angleRad * (180.0 / kPi); }

inline Pose translation(const Vector3d& p) {
  Pose X = Pose::Identity();
  X.translation() = p;
  return X;
}

/// Turn by `angleRad` about the line through `p` along unit `axis`.
inline Pose rotationAbout(const Vector3d& p, const Vector3d& axis, double angleRad) {
  Pose X = Pose::Identity();
  X.linear() = Eigen::AngleAxisd(angleRad, axis).toRotationMatrix();
  X.translation() = p - X.linear() * p;
  return X;
}

}  // namespace swingroom
