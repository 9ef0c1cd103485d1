#include "core/rigging/zone_suggestion.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

constexpr double kSameMm = 0.1;

bool isBetween(const JointEdge& edge, const Joint& joint) {
  const std::size_t parent = joint.parent->index, child = joint.child.index;
  return (edge.a == parent && edge.b == child) || (edge.a == child && edge.b == parent);
}

bool isSameAxis(const Joint& joint, const Joint& found) {
  const Vector3d w = found.through - joint.through;
  if (joint.type == JointType::ball) return w.norm() < kSameMm;
  return std::abs(joint.along.dot(found.along)) > 0.999 &&
         (w - w.dot(joint.along) * joint.along).norm() < kSameMm;
}

/// As seen along the joint's own axis.
std::vector<JointZone> seenAlong(const Joint& joint, const Joint& found) {
  if (joint.type == JointType::ball) return found.zones;
  const double at = (found.through - joint.through).dot(joint.along);
  const double way = joint.along.dot(found.along) < 0 ? -1 : 1;
  std::vector<JointZone> zones;
  for (const JointZone& zone : found.zones) {
    const double a = at + way * zone.fromMm, b = at + way * zone.toMm;
    zones.push_back({zone.radiusMm, std::min(a, b), std::max(a, b)});
  }
  std::sort(zones.begin(), zones.end(),
            [](const JointZone& a, const JointZone& b) { return a.fromMm < b.fromMm; });
  return zones;
}

}  // namespace

std::vector<SuggestedZones> zonesFor(const std::vector<Joint>& joints,
                                     const std::vector<JointEdge>& edges) {
  std::vector<SuggestedZones> suggested;
  for (std::size_t i = 0; i < joints.size(); ++i) {
    const Joint& joint = joints[i];
    const bool turns = joint.type == JointType::hinge || joint.type == JointType::ball;
    if (!turns || !joint.parent || !joint.zones.empty()) continue;
    for (const JointEdge& edge : edges) {
      if (!isBetween(edge, joint)) continue;
      for (const JointChoice& choice : edge.choices) {
        if (choice.joint.type != joint.type || !isSameAxis(joint, choice.joint)) continue;
        suggested.push_back({JointId{i}, seenAlong(joint, choice.joint),
                             joint.fitMm ? std::nullopt : choice.joint.fitMm, choice.reason});
        break;
      }
    }
  }
  return suggested;
}

}  // namespace swingroom
