#include "core/print/printed/play_bound.h"

#include <algorithm>
#include <cmath>

#include "core/assembly/part_tree.h"
#include "core/sweep/interval_gap.h"
#include "core/sweep/plan.h"

namespace swingroom {
namespace {

using Links = std::vector<RelativeMotion::Link>;

/// How far the part's surface reaches from a point of the assembly at home, at most: of its box.
double reachFrom(const PlayedPair& pair, PartId part, const Vector3d& centre_W) {
  const BoundingTree::Node& box = pair.geometry->at(part.index)->surface->tree.root();
  const Vector3d centre_P = pair.assembly->part(part).X_WP_home.inverse() * centre_W;
  const Vector3d off = box.axes.transpose() * (centre_P - box.centre);
  return (off.cwiseAbs() + box.half).norm();
}

/// How much longer a slide makes the way past it than it is at home.
double travelOf(const RelativeMotion::Link& link) {
  if (link.joint->type != JointType::slide) return 0;
  return std::max(std::abs(link.start.x()), std::abs(link.end.x()));
}

/// By link: the longest lever from its middle to the surface of `part`, which hangs behind the
/// last.
/// @param inwards  From the part's side: the link next to it first.
std::vector<double> leversTo(const PlayedPair& pair, PartId part, const Links& inwards) {
  std::vector<double> levers;
  for (const RelativeMotion::Link& link : inwards) {
    const Vector3d here = playMiddle(*link.joint, pair.plays->at(link.id.index));
    if (levers.empty()) {
      levers.push_back(reachFrom(pair, part, here) + travelOf(link));
      continue;
    }
    const auto& nearer = inwards[levers.size() - 1];
    const double linkMm =
        (playMiddle(*nearer.joint, pair.plays->at(nearer.id.index)) - here).norm();
    levers.push_back(levers.back() + linkMm + travelOf(link));
  }
  return levers;
}

/// What a joint that is off by its play does, at most, to a place at the end of the lever: all its
/// travel, or all its tilt with the travel that is left then.
double farthestOff(const PlayFigures& play, double leverMm) {
  return std::max(play.radialMm, play.tiltedRadialMm + play.tiltRad * leverMm) +
         play.axialMm.value_or(0);
}

/// The joint off by its play, so that the place goes along `towards_W`: tilted or moved, whichever
/// takes it farther.
Pose playTowards(const JointPlay& of, const Joint& joint, const Pose& D, const Vector3d& place_W,
                 const Vector3d& towards_W) {
  const PlayFigures& play = of.asPrinted;
  const Vector3d centre = D * playMiddle(joint, of);
  const Vector3d along = D.linear() * joint.along;
  const bool ball = joint.type == JointType::ball;
  const double lengthwise = ball ? 0 : towards_W.dot(along);
  const Vector3d across = towards_W - lengthwise * along;
  Vector3d axis = (place_W - centre).cross(towards_W);
  if (!ball) axis -= axis.dot(along) * along;  // About the joint's own axis it turns anyway.
  Pose moved = Pose::Identity();
  if (play.tiltRad * axis.norm() > play.radialMm * across.norm()) {
    moved = Eigen::Translation3d(centre) * Eigen::AngleAxisd(play.tiltRad, axis.normalized()) *
            Eigen::Translation3d(-centre);
  } else if (across.norm() > 1e-9) {
    moved.pretranslate(Vector3d(play.radialMm * across.normalized()));
  }
  if (std::abs(lengthwise) > 1e-9) {
    moved.pretranslate(Vector3d(std::copysign(play.axialMm.value_or(0), lengthwise) * along));
  }
  return moved;
}

}  // namespace

Vector3d playMiddle(const Joint& joint, const JointPlay& play) {
  if (play.middle_W) return *play.middle_W;
  if (joint.zones.empty() || joint.type == JointType::ball) return joint.through;
  double from = joint.zones.front().fromMm, to = joint.zones.front().toMm;
  for (const JointZone& zone : joint.zones) {
    from = std::min(from, zone.fromMm);
    to = std::max(to, zone.toMm);
  }
  return joint.through + (from + to) / 2 * joint.along;
}

std::vector<Step> standsOnWay(const Sequence& way) {
  std::vector<Step> steps = way.steps;
  if (!steps.empty() && steps.back().order == StepOrder::replug) {
    const Configuration& after = steps.back().end;
    steps.push_back({steps.back().name, StepOrder::together, after, after});
  }
  return steps;
}

double playBound(const PlayedPair& pair, const Step& step) {
  const RelativeMotion motion(*pair.assembly, step, pair.a, pair.b);
  Links fromB(motion.links().rbegin(), motion.links().rend());
  std::vector<double> toA = leversTo(pair, pair.a, motion.links());
  std::vector<double> toB = leversTo(pair, pair.b, fromB);
  std::reverse(toB.begin(), toB.end());
  double bound = 0, travels = 0;  // Levers are longer by what other joints are off.
  for (const RelativeMotion::Link& link : motion.links()) {
    const PlayFigures& play = pair.plays->at(link.id.index).asPrinted;
    travels += play.radialMm + play.axialMm.value_or(0);
  }
  for (std::size_t i = 0; i < toA.size(); ++i) {
    const PlayFigures& play = pair.plays->at(motion.links()[i].id.index).asPrinted;
    bound += farthestOff(play, std::min(toA[i], toB[i]) + travels);
  }
  return bound;
}

double playedGap(const PlayedPair& pair, const Configuration& standing, const Vector3d& onA_W,
                 const Vector3d& onB_W, double withinMm) {
  const Assembly& assembly = *pair.assembly;
  const RelativeMotion still = standingStill(assembly, standing, pair.a, pair.b);
  const std::vector<Pose> D = displacementsOf(assembly, standing);
  const std::vector<Pose> X_WPs = posesOf(assembly, standing);
  const Vector3d towards = (onA_W - onB_W).normalized();
  Pose moved = Pose::Identity();
  // From B inwards: a joint nearer to A carries all that those behind it have done.
  for (auto link = still.links().rbegin(); link != still.links().rend(); ++link) {
    const JointPlay& play = pair.plays->at(link->id.index);
    const PartId carried = link->joint->child;
    const Pose one = playTowards(play, *link->joint, D[carried.index], moved * onB_W, towards);
    moved = one * moved;
  }
  const Pose X_AB = X_WPs[pair.a.index].inverse() * moved * X_WPs[pair.b.index];
  const JudgedSurfaces judged = judgedSurfaces(assembly, standing, *pair.geometry, pair.a, pair.b);
  if (judged.a->tree.empty() || judged.b->tree.empty()) return withinMm;
  return intervalGap(judged.a->tree, judged.b->tree, {X_AB, {}}, 0, {0, withinMm}).middleMm;
}

}  // namespace swingroom
