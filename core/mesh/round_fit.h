#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

namespace swingroom {

/// A cylinder without ends, mm.
struct CylinderFit {
  Eigen::Vector3d through =
      Eigen::Vector3d::Zero();                       ///< Nearest of the axis to the points' middle.
  Eigen::Vector3d along = Eigen::Vector3d::UnitZ();  ///< Unit.
  double radiusMm = 0;
  double residualMm = 0;  ///< Greatest distance of a point from it.

  /// From the axis straight outwards to `p`.
  Eigen::Vector3d outTo(const Eigen::Vector3d& p) const {
    const Eigen::Vector3d w = p - through;
    return w - w.dot(along) * along;
  }
};

struct BallFit {
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
  double radiusMm = 0;
  double residualMm = 0;  ///< Greatest distance of a point from it.
};

/// The cylinder with the least sum of squared distances from the points, found from a first guess
/// of its direction: a circle of the points seen along it, then Gauss and Newton for all five
/// unknowns. None if the points do not tell one: fewer than six, or all on lines or a plane.
std::optional<CylinderFit> cylinderThrough(const std::vector<Eigen::Vector3d>& points,
                                           const Eigen::Vector3d& alongAbout);

/// The same for a sphere; fewer than five points or a plane of them do not tell one.
std::optional<BallFit> ballThrough(const std::vector<Eigen::Vector3d>& points);

}  // namespace swingroom
