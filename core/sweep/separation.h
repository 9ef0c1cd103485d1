#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

#include "core/mesh/closest_points.h"
#include "core/motion/travel.h"
#include "core/sweep/box_lanes.h"

namespace swingroom {

/// How far apart two triangles stay over an interval of motion, by single directions. Finer than
/// `compareTriangles`, and slower. Triangles are given in A's frame as they are at the middle; lengths in
/// mm; what is proven is never more than the true gap.
class Separation {
 public:
  /// Every point of B that is asked about is within `radius` of `centre_A` at the middle. Keeps `piece` and
  /// `lanes`, which is of the same piece.
  Separation(const MotionPiece& piece, const LaneMotion& lanes, const Eigen::Vector3d& centre_A, double radius,
             double marginMm);

  /// Separation along unit `direction` or against it, less what the motion can take off it. 0 if it is below
  /// `wantedMm` at the middle already.
  double along(Eigen::Vector3d direction, const TriangleCorners& onA, const TriangleCorners& onB,
               double wantedMm) const;

  /// What slides past keeps its distance along the direction that is nearest as seen along the velocity.
  double acrossVelocity(const TriangleCorners& onA, const TriangleCorners& onB, double wantedMm) const;

  /// The far end of a long triangle may move much along a direction in which the near end keeps its
  /// distance: each half has a direction of its own. 0 as soon as one piece cannot be proven.
  /// @param tests  Gains the number of comparisons.
  double bySplitting(const TriangleCorners& onA, const TriangleCorners& onB, double wantedMm, int splitsLeft,
                     std::uint64_t& tests) const;

  const TravelBounds& travel() const { return travel_; }

 private:
  double proven(const TriangleCorners& onA, const TriangleCorners& onB, double wantedMm) const;
  double speedAlong(const Eigen::Vector3d& direction, const Eigen::Vector3d& p) const;
  double takenOff(double speed, double bend) const;

  const LaneMotion& lanes_;
  TravelBounds travel_;
  bool together_;
  std::vector<double> rests_;
  double margin_;
};

}  // namespace swingroom
