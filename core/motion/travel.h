#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/motion/relative_motion.h"

namespace swingroom {

/// Bounds on how B's points move in A's frame within `halfWidth` (share of a step) of one instant.
///
/// A point x of B obeys |n.(x(u) - x(m)) - (u - m) n.v(x)| <= a (u - m)^2 / 2 for every unit n fixed in A,
/// where v is its velocity at the middle m, linear in x, and a bounds its acceleration along n. With joints
/// at even rates, outermost first, w_i their turn rates and V_i bounds of the speed each adds,
///   |a.n| <= sum_i |w_i| p_i (V_i + 2 sum_{j>i} V_j),
/// p_i bounding how far axis i is from being along n (acceleration w x v is across w).
/// The idea to bound the motion and bisect time: Schwarzer, Saha, Latombe, IEEE T-RO 21(3), 2005.
class TravelBounds {
 public:
  TravelBounds(const MotionAtInstant& motion, double halfWidth);

  /// Velocity per step, at the middle, of the point that is at `p_A` (in A) then.
  Eigen::Vector3d velocityAt(const Eigen::Vector3d& p_A) const { return linear_ + angular_.cross(p_A); }

  /// n.v(x) = along + x.across for x in A's frame.
  struct Projection {
    double along = 0;
    Eigen::Vector3d across;
  };
  Projection projectOn(const Eigen::Vector3d& n) const { return {n.dot(linear_), n.cross(angular_)}; }

  /// Largest departure along `n` from even motion, mm, of any point of B that at the middle is within
  /// `radius` of `centre_A`: half the acceleration bound times halfWidth squared.
  double bendMm(const Eigen::Vector3d& centre_A, double radius, const Eigen::Vector3d& n) const;
  /// The same for every direction.
  double bendMm(const Eigen::Vector3d& centre_A, double radius) const;

  /// How far any such point gets from where it is at the middle, mm.
  double travelMm(const Eigen::Vector3d& centre_A, double radius) const;

  double halfWidth() const { return halfWidth_; }
  /// Turn rate at the middle, rad per step, in A.
  const Eigen::Vector3d& angular() const { return angular_; }

 private:
  /// Bound of the speed that `axis` adds to a point within `radius` of `centre_A`, when the joints nearer to B
  /// add at most `innerSpeed`: joints farther out carry axis and point alike and do not change their distance.
  double speedFrom(const MovingAxis& axis, const Eigen::Vector3d& centre_A, double radius, double innerSpeed) const;
  template <typename Across>
  double bend(const Eigen::Vector3d& centre_A, double radius, const Across& across) const;

  const std::vector<MovingAxis>& axes_;
  double halfWidth_;
  Eigen::Vector3d linear_ = Eigen::Vector3d::Zero();
  Eigen::Vector3d angular_ = Eigen::Vector3d::Zero();
  std::vector<double> turnedBefore_;  ///< How far, rad, the joints outside axis i can turn it.
};

}  // namespace swingroom
