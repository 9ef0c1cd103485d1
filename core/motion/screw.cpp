#include "core/motion/screw.h"

#include <cmath>

namespace swingroom {
namespace {
constexpr double kLeastAngleRad = 1e-9;
}

Vector3d rotationVectorOf(const Eigen::Matrix3d& R) {
  // Through the quaternion: well conditioned at 0 and at pi, where the matrix formulas are not.
  Eigen::Quaterniond q(R);
  q.normalize();
  if (q.w() < 0) q.coeffs() = -q.coeffs();
  const double sine = q.vec().norm();
  if (sine == 0) return Vector3d::Zero();
  return q.vec() * (2 * std::atan2(sine, q.w()) / sine);
}

Screw screwOf(const Pose& D) {
  Screw screw;
  const Vector3d turn = rotationVectorOf(D.linear());
  const Vector3d p = D.translation();
  screw.angleRad = turn.norm();
  if (screw.angleRad < kLeastAngleRad) {
    screw.angleRad = 0;
    screw.slideMm = p.norm();
    if (screw.slideMm > 0) screw.axis = p / screw.slideMm;
    return screw;
  }
  screw.axis = turn / screw.angleRad;
  screw.slideMm = p.dot(screw.axis);
  const Vector3d across = p - screw.slideMm * screw.axis;
  screw.point = 0.5 * (across + screw.axis.cross(across) / std::tan(screw.angleRad / 2));
  return screw;
}

}  // namespace swingroom
