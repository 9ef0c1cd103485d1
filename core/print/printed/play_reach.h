#pragma once

#include <algorithm>
#include <vector>

#include "core/motion/travel.h"
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

  /// Around that instant, as `travel` bounds it: places on B move against A by `travelMm` at most,
  /// and the joints' axes turn by `turnRad` at most.
  void allow(const TravelBounds& travel, double travelMm, double turnRad);

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
    JointType type = JointType::hinge;
    PlayFigures play;
    double middleTravelMm = 0;  ///< How far the middle moves against A around the instant.

    double axialMm() const { return play.axialMm.value_or(0); }
    /// An arc is no longer than its angle.
    double farMm(double leverMm) const {
      return std::max(play.radialMm, play.tiltedRadialMm + play.tiltRad * leverMm) + axialMm();
    }
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
