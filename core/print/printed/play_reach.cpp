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
    const PlayFigures& play = pair.plays->at(link.id.index).asPrinted;
    joints_.push_back({X_AC * playMiddle(*link.joint), X_AC.linear() * link.joint->along,
                       link.joint->type == JointType::hinge, play.radialMm,
                       play.axialMm.value_or(0), play.tiltRad, 2 * std::sin(play.tiltRad / 2)});
    tilts_ += joints_.back().perMm;
  }
}

/// A turn R by the tilt moves r by (R - I) r: along n at most sin x |r x n| less what is about the
/// own axis, and (1 - cos x) |r|. The doubt is about r; the axis may have turned by `turnRad`.
double PlayReach::Offset::alongMm(const Vector3d& n_A, const Vector3d& lever_A, double leverDoubtMm,
                                  double turnRad) const {
  const double leverMm = lever_A.norm() + leverDoubtMm;
  Vector3d arm = lever_A.cross(n_A);
  if (tiltsAcross) arm -= arm.dot(along_A) * along_A;
  const double armMm = std::min(leverMm, arm.norm() + leverDoubtMm + 2 * turnRad * leverMm);
  const double tilted =
      std::sin(std::min(tiltRad, kPi / 2)) * armMm + (1 - std::cos(tiltRad)) * leverMm;
  const double lengthwise = std::abs(n_A.dot(along_A));
  const double across = std::sqrt(std::max(0.0, 1 - lengthwise * lengthwise));
  return std::max(radialMm * std::min(1.0, across + turnRad), tilted) +
         axialMm * std::min(1.0, lengthwise + turnRad);
}

template <typename Off>
double PlayReach::leastSum(const ReachBall& onA, const ReachBall& onB, const Off& off) const {
  const std::size_t count = joints_.size();
  // By link that stands still, A's first: what the joints between A and it take, and then those up
  // to B.
  std::vector<double> sums(count + 1, 0);
  double sum = 0,
         farMm = 0;  // Offs so far: of the distance that is asked about, and whichever way.
  for (std::size_t i = 0; i < count; ++i) {
    sum += off(joints_[i], onA, onA.radiusMm + travelMm_, farMm);
    farMm += joints_[i].farMm((joints_[i].middle_A - onA.centre_A).norm() + onA.radiusMm +
                              travelMm_ + farMm);
    sums[i + 1] += sum;
  }
  sum = farMm = 0;
  for (std::size_t i = count; i-- > 0;) {
    sum += off(joints_[i], onB, onB.radiusMm + 2 * travelMm_, farMm);
    farMm += joints_[i].farMm((joints_[i].middle_A - onB.centre_A).norm() + onB.radiusMm +
                              2 * travelMm_ + farMm);
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
                           joint.perMm * offMm;
                  });
}

}  // namespace swingroom
