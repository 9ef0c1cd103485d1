#pragma once

#include <Eigen/Core>
#include <vector>

namespace swingroom {

/// A cylinder that a stretch of a surface lies on: a pin or the wall of a hole. Lengths in mm.
struct CylinderFeature {
  Eigen::Vector3d through = Eigen::Vector3d::Zero();  ///< A point of the axis.
  Eigen::Vector3d along = Eigen::Vector3d::UnitZ();   ///< Unit.
  double radiusMm = 0;                                ///< Of the cylinder that was meshed.
  double fromMm = 0, toMm = 0;                        ///< Along the axis from `through`.
  double coverageRad = 0;  ///< How much of a turn it goes round, gaps left out; 2 pi: all round.
  bool outward = false;    ///< A pin. Otherwise a hole.
  double residualMm = 0;   ///< Greatest distance of a corner from the cylinder; 0: it is exact.
};

/// A sphere that a part of a surface lies on: a ball or a socket. Lengths in mm.
struct BallFeature {
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
  double radiusMm = 0;    ///< Of the sphere that was meshed.
  double share = 0;       ///< Of the whole sphere's surface, 0 to 1.
  bool outward = false;   ///< A ball. Otherwise a socket.
  double residualMm = 0;  ///< Greatest distance of a corner from the sphere; 0: it is exact.
};

/// A flat stretch of a surface. Lengths in mm.
struct PlaneFeature {
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();   ///< Of its area.
  Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();  ///< Unit, out of the material.
  double areaMm2 = 0;
  double residualMm = 0;  ///< Greatest distance of a corner from the plane.
};

/// A straight edge between two faces. Lengths in mm.
struct EdgeFeature {
  Eigen::Vector3d from = Eigen::Vector3d::Zero();
  Eigen::Vector3d to = Eigen::Vector3d::Zero();
  double residualMm = 0;  ///< Greatest distance of a corner from the line.
};

/// The round features of one surface, in its frame.
struct Features {
  std::vector<CylinderFeature> cylinders;
  std::vector<BallFeature> balls;
};

}  // namespace swingroom
