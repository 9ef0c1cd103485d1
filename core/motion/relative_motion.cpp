#include "core/motion/relative_motion.h"

#include <algorithm>
#include <stdexcept>

namespace swingroom {
namespace {

/// The part and everything that it hangs on, nearest first.
std::vector<PartId> wayToGround(const Assembly& assembly, const Configuration& configuration, PartId part) {
  std::vector<PartId> way;
  for (std::optional<PartId> here = part; here;) {
    way.push_back(*here);
    if (way.size() > assembly.parts().size()) throw std::invalid_argument("RelativeMotion: the joints form a ring");
    const Mount* mount = holdingMount(assembly, configuration, *here);
    here = mount ? mount->parent : std::nullopt;
  }
  return way;
}

void dropCommonAncestors(std::vector<PartId>& a, std::vector<PartId>& b) {
  while (!a.empty() && !b.empty() && a.back() == b.back()) {
    a.pop_back();
    b.pop_back();
  }
}

}  // namespace

MotionAtInstant seenFromB(const MotionAtInstant& motion) {
  MotionAtInstant seen;
  seen.X_AB = motion.X_AB.inverse();
  for (auto axis = motion.axes.rbegin(); axis != motion.axes.rend(); ++axis) {
    seen.axes.push_back({seen.X_AB * axis->point, seen.X_AB.linear() * axis->direction, -axis->turnRateRad,
                         -axis->slideRateMm, axis->joint, axis->freedom});
  }
  return seen;
}

RelativeMotion::RelativeMotion(const Assembly& assembly, const Step& step, PartId a, PartId b)
    : X_AW_home_(assembly.part(a).X_WP_home.inverse()), X_WB_home_(assembly.part(b).X_WP_home) {
  std::vector<PartId> wayA = wayToGround(assembly, step.start, a);
  std::vector<PartId> wayB = wayToGround(assembly, step.start, b);
  dropCommonAncestors(wayA, wayB);
  addLinks(assembly, step, wayA, true);
  std::reverse(wayB.begin(), wayB.end());
  addLinks(assembly, step, wayB, false);
}

void RelativeMotion::addLinks(const Assembly& assembly, const Step& step, const std::vector<PartId>& parts,
                              bool towardsParent) {
  for (const PartId part : parts) {
    const Mount* mount = holdingMount(assembly, step.start, part);
    if (!mount) continue;
    std::vector<JointId> joints = mount->joints;
    if (towardsParent) std::reverse(joints.begin(), joints.end());
    for (const JointId id : joints) {
      const Joint& joint = assembly.joint(id);
      const JointValue& start = step.start.values.at(id.index);
      const JointValue& end = step.order == StepOrder::replug ? start : step.end.values.at(id.index);
      if (joint.type == JointType::fixed) continue;
      const bool moves = start != end;
      const std::size_t freedom = moves ? freedomOf(assembly, id) : 0;
      links_.push_back({&joint, id, towardsParent, moves, freedom, start, end});
    }
  }
}

std::size_t RelativeMotion::freedomOf(const Assembly& assembly, JointId joint) {
  for (std::size_t i = 0; i < assembly.joints().size() && assembly.joint(joint).follows; ++i) {
    joint = assembly.joint(joint).follows->leader;
  }
  const auto known = std::find(leaders_.begin(), leaders_.end(), joint);
  if (known == leaders_.end()) leaders_.push_back(joint);
  return static_cast<std::size_t>(std::find(leaders_.begin(), leaders_.end(), joint) - leaders_.begin());
}

MotionAtInstant RelativeMotion::at(double part) const {
  return standAt([&](const Link&) { return part; });
}

MotionAtInstant RelativeMotion::at(const std::vector<double>& parts) const {
  return standAt([&](const Link& link) { return link.moves ? parts.at(link.freedom) : 0.0; });
}

template <typename PartOf>
MotionAtInstant RelativeMotion::standAt(const PartOf& partOf) const {
  MotionAtInstant motion;
  Pose X_AL = X_AW_home_;  // L: the frame, at home in W, that the links passed so far have carried along.
  for (const Link& link : links_) {
    const Joint& joint = *link.joint;
    const JointValue value = valueBetween(joint, link.start, link.end, partOf(link));
    const Pose D = displacementOf(joint, value);
    const Pose step = link.towardsParent ? D.inverse() : D;
    if (link.moves) {
      const double sign = link.towardsParent ? -1 : 1;
      MovingAxis axis;
      axis.joint = link.id;
      axis.freedom = link.freedom;
      axis.point = X_AL * joint.through;
      axis.direction = X_AL.linear() * joint.along;
      if (joint.type == JointType::hinge) axis.turnRateRad = sign * (link.end.x() - link.start.x());
      if (joint.type == JointType::slide) axis.slideRateMm = sign * (link.end.x() - link.start.x());
      if (joint.type == JointType::ball) {
        // The turn is written in the parent's frame; on the way to the parent that lies behind the ball.
        const Vector3d turn = ballTurn(link.start, link.end);
        const Vector3d here = link.towardsParent ? Vector3d(step.linear() * turn) : turn;
        axis.direction = X_AL.linear() * here.normalized();
        axis.turnRateRad = sign * turn.norm();
      }
      motion.axes.push_back(axis);
    }
    X_AL = X_AL * step;
  }
  motion.X_AB = X_AL * X_WB_home_;
  return motion;
}

RelativeMotion standingStill(const Assembly& assembly, const Configuration& configuration, PartId a, PartId b) {
  return {assembly, {"", StepOrder::together, configuration, configuration}, a, b};
}

}  // namespace swingroom
