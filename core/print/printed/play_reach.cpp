#include "core/print/printed/play_reach.h"

#include <algorithm>
#include <cmath>

namespace swingroom {

PlayReach::PlayReach(const PlayedPair& pair, const RelativeMotion& motion, double part) {
  Pose X_AL = pair.assembly->part(pair.a).X_WP_home.inverse();
  for (const RelativeMotion::Link& link : motion.links()) {
    const Pose D =
        displacementOf(*link.joint, valueBetween(*link.joint, link.start, link.end, part));
    // The middle goes with the joint's child.
    const Pose X_AC = link.towardsParent ? X_AL : Pose(X_AL * D);
    X_AL = X_AL * (link.towardsParent ? D.inverse() : D);
    const JointPlay& play = pair.plays->at(link.id.index);
    joints_.push_back({X_AC * playMiddle(*link.joint, play), X_AC.linear() * link.joint->along,
                       link.joint->type, play.asPrinted});
    tilts_ += play.asPrinted.tiltRad;
  }
}

void PlayReach::allow(const TravelBounds& travel, double travelMm, double turnRad) {
  travelMm_ = travelMm;
  turnRad_ = turnRad;
  // As if it were a place on B: joints behind it make the bound larger only.
  for (Offset& joint : joints_) joint.middleTravelMm = travel.travelMm(joint.middle_A, 0);
}

/// A turn R by the tilt x moves r by (R - I) r: along n at most x |r x n| less what is about the
/// own axis, and (1 - cos x) |r|. The doubt is about r; the axis may have turned by `turnRad`. The
/// joint's own travel is turned with it. A hinge does not tilt about its own axis; a ball goes off
/// every way.
double PlayReach::Offset::alongMm(const Vector3d& n_A, const Vector3d& lever_A, double leverDoubtMm,
                                  double turnRad) const {
  const double leverMm = lever_A.norm() + leverDoubtMm;
  Vector3d arm = lever_A.cross(n_A);
  if (type == JointType::hinge) arm -= arm.dot(along_A) * along_A;
  const double armMm = std::min(leverMm, arm.norm() + leverDoubtMm + 2 * turnRad * leverMm);
  const double turned = play.tiltRad * (armMm + play.radialMm + axialMm());
  const double tilted = turned + (1 - std::cos(play.tiltRad)) * leverMm;
  const double lengthwise = std::abs(n_A.dot(along_A));
  const bool anyWay = type == JointType::ball;
  const double across = anyWay ? 1 : std::sqrt(std::max(0.0, 1 - lengthwise * lengthwise));
  const double acrossMost = std::min(1.0, across + turnRad);
  const double lengthwiseMost = anyWay ? 1 : std::min(1.0, lengthwise + turnRad);
  return std::max(play.radialMm * acrossMost, play.tiltedRadialMm * acrossMost + tilted) +
         axialMm() * lengthwiseMost;
}

template <typename Off>
double PlayReach::leastSum(const ReachBall& onA, const ReachBall& onB, const Off& off) const {
  const std::size_t count = joints_.size();
  // By link that stands still, A's first: what the joints between A and it take, and then those up
  // to B.
  std::vector<double> sums(count + 1, 0);
  double sum = 0,
         farMm = 0;  // Offs so far: of the distance that is asked about, and whichever way.
  const auto add = [&](const Offset& joint, const ReachBall& ball, double doubtMm) {
    const double leverMm = (joint.middle_A - ball.centre_A).norm() + doubtMm;
    sum += off(joint, ball, doubtMm, farMm);
    farMm += joint.farMm(leverMm + farMm);
  };
  for (std::size_t i = 0; i < count; ++i) {
    add(joints_[i], onA, onA.radiusMm + joints_[i].middleTravelMm);
    sums[i + 1] += sum;
  }
  sum = farMm = 0;
  for (std::size_t i = count; i-- > 0;) {
    add(joints_[i], onB, onB.radiusMm + travelMm_ + joints_[i].middleTravelMm);
    sums[i] += sum;
  }
  return *std::min_element(sums.begin(), sums.end());
}

double PlayReach::takesMm(const ReachBall& onA, const ReachBall& onB) const {
  return leastSum(onA, onB,
                  [](const Offset& joint, const ReachBall& ball, double doubtMm, double offMm) {
                    return joint.farMm((joint.middle_A - ball.centre_A).norm() + doubtMm + offMm);
                  });
}

double PlayReach::takesAlongMm(const ReachBall& onA, const ReachBall& onB,
                               const Vector3d& n_A) const {
  return leastSum(onA, onB,
                  [&](const Offset& joint, const ReachBall& ball, double doubtMm, double offMm) {
                    // What places are off already is turned with them.
                    return joint.alongMm(n_A, ball.centre_A - joint.middle_A, doubtMm, turnRad_) +
                           joint.play.tiltRad * offMm;
                  });
}

}  // namespace swingroom
