#pragma once

#include <algorithm>
#include <vector>

#include "core/print/printed/play_bound.h"

namespace swingroom {

/// A ball that holds a place that is asked about, in the frame of the pair's first part, mm.
struct ReachBall {
  Vector3d centre_A = Vector3d::Zero();
  double radiusMm = 0;
};

/// What play can take off the distance of two places, one on each part of a pair, at one instant of
/// a step and a little around it: each joint carries what lies behind it off by its travel and
/// turns it by its tilt about its middle, so that places far from it go farther. It makes no
/// difference which link is thought to stand still: the one counts for which the sum is least.
class PlayReach {
 public:
  /// @param motion  Of the pair. @param part  How far into the step, 0 to 1, all joints together.
  PlayReach(const PlayedPair& pair, const RelativeMotion& motion, double part);

  /// Around that instant places on B, and with them the joints' middles, move against A by this at
  /// most, and the joints' axes turn by this at most.
  void allow(double travelMm, double turnRad) {
    travelMm_ = travelMm;
    turnRad_ = turnRad;
  }

  /// mm; whichever ways all joints are off at once.
  double takesMm(const ReachBall& onA, const ReachBall& onB) const;
  /// The same of the distance along one unit direction of A's frame: never more, and often far
  /// less, for a hinge does not tilt about its own axis.
  double takesAlongMm(const ReachBall& onA, const ReachBall& onB, const Vector3d& n_A) const;
  /// How much of that is for not knowing places better than to `withinMm`, mm.
  double doubtMm(double withinMm) const { return tilts_ * withinMm; }

 private:
  struct Offset {
    Vector3d middle_A, along_A;
    bool tiltsAcross = false;  ///< Only about axes across its own.
    double radialMm = 0, axialMm = 0, tiltRad = 0;
    double perMm = 0;  ///< How far the tilt takes a place that is 1 mm off the middle.

    double farMm(double leverMm) const { return std::max(radialMm, perMm * leverMm) + axialMm; }
    double alongMm(const Vector3d& n_A, const Vector3d& lever_A, double leverDoubtMm,
                   double turnRad) const;
  };
  /// Sums over the joints on either side of the link that stands still; the least over all links.
  template <typename Off>
  double leastSum(const ReachBall& onA, const ReachBall& onB, const Off& off) const;

  std::vector<Offset> joints_;  ///< From A to B.
  double travelMm_ = 0, turnRad_ = 0;
  double tilts_ = 0;
};

}  // namespace swingroom
