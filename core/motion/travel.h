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
/// To third order, with its acceleration a(x) at the middle, affine in x,
///   |n.(x(u) - x(m)) - (u - m) n.v(x) - (u - m)^2 n.a(x) / 2| <= j |u - m|^3 / 6,
///   j = sum_i p_i |w_i| (|w_i| V_i + sum_{m>i} V_m (3 |w_i| + 3 |w_m| + 6 sum_{i<k<m} |w_k|)),
/// since a derivative by joint values is a chain of crossings with the axes, outermost first.
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

  /// Acceleration per step squared, at the middle, of the point that is at `p_A` then.
  Eigen::Vector3d accelerationAt(const Eigen::Vector3d& p_A) const { return bendLinear_ + bendTurn_ * p_A; }
  /// n.a(x) = along + x.across for x in A's frame.
  Projection bendOn(const Eigen::Vector3d& n) const { return {n.dot(bendLinear_), bendTurn_.transpose() * n}; }

  const Eigen::Matrix3d& bendTurn() const { return bendTurn_; }

  /// By axis i, what its share p_i = 1 makes of the third-order bound, j halfWidth^3 / 6, mm, for points
  /// that at the middle are within `radius` of `centre_A`.
  std::vector<double> restsMm(const Eigen::Vector3d& centre_A, double radius) const;
  /// The same to second order: what even motion leaves out, whichever way each joint goes.
  std::vector<double> bendsMm(const Eigen::Vector3d& centre_A, double radius) const;
  /// The sum of such shares along `n`.
  double restMm(const std::vector<double>& restsMm, const Eigen::Vector3d& n) const;

  /// Largest departure along `n` from even motion, mm, of any point of B that at the middle is within
  /// `radius` of `centre_A`: half the acceleration bound times halfWidth squared.
  double bendMm(const Eigen::Vector3d& centre_A, double radius, const Eigen::Vector3d& n) const;
  /// The same for every direction.
  double bendMm(const Eigen::Vector3d& centre_A, double radius) const;

  /// How far axis i can turn off the way it lies at the middle, rad.
  double turnedBefore(std::size_t i) const { return turnedBefore_[i]; }

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
  Eigen::Vector3d bendLinear_ = Eigen::Vector3d::Zero();
  Eigen::Matrix3d bendTurn_ = Eigen::Matrix3d::Zero();
  std::vector<double> turnedBefore_;  ///< How far, rad, the joints outside axis i can turn it.
};

}  // namespace swingroom
