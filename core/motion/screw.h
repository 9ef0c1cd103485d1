#pragma once

#include "core/base/transform.h"

namespace swingroom {

/// A rigid displacement as one turn about a line and one slide along it.
/// Chasles and Mozzi; Lynch & Park, Modern Robotics, Cambridge 2017, ch. 3.
struct Screw {
  Vector3d axis = Vector3d::UnitZ();  ///< Unit.
  Vector3d point = Vector3d::Zero();  ///< Of the axis, nearest the origin. Zero for a pure slide.
  double angleRad = 0;                ///< In [0, pi].
  double slideMm = 0;                 ///< Along `axis`; not negative for a pure slide.
};

/// The screw of displacement `D` (in the frame in which D is written). An angle under 1e-9 rad counts as a
/// pure slide; without either, axis z and zeros.
Screw screwOf(const Pose& D);

/// Rotation vector (axis times angle, angle in [0, pi]) of a rotation matrix; at pi either sign.
Vector3d rotationVectorOf(const Eigen::Matrix3d& R);

}  // namespace swingroom
