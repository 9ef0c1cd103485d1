#include "core/motion/joint_inference.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <set>

#include "core/motion/evidence_table.h"
#include "core/motion/joint_order.h"

namespace swingroom {
namespace {

constexpr double kGuideMm2 = 20;       // Of faces along which a part slides: less guides nothing.
constexpr double kZoneMarginMm = 0.5;  // Round a hole and beyond both its ends.

/// A pin or ball of the pair's own, or, for what travels, faces enough that guide it all the way.
bool hasItsOwn(const PairEvidence& pair) {
  if (pair.evidence.isHeld()) return true;
  return kindOf(pair.screw) == ScrewKind::travel && pair.evidence.nearInFirst &&
         pair.evidence.nearInSecond && pair.evidence.slidingAreaMm2 >= kGuideMm2;
}

/// Which parts hang together without moving against each other, by nearness, nearest first. Two that
/// each have a joint of their own and keep the required gap do not.
class NearParts {
 public:
  NearParts(std::size_t count, const EvidenceTable& table, double requiredGapMm)
      : root_(count), hasOwn_(count, false) {
    std::iota(root_.begin(), root_.end(), std::size_t{0});
    for (const PairEvidence& pair : table.pairs) {
      if (hasItsOwn(pair)) hasOwn_[pair.a] = hasOwn_[pair.b] = true;
    }
    std::vector<GroupGap> gaps = table.gaps;
    std::stable_sort(gaps.begin(), gaps.end(), [](const GroupGap& x, const GroupGap& y) {
      return x.gapMm < y.gapMm;
    });
    for (const GroupGap& gap : gaps) join(gap, requiredGapMm);
  }
  std::size_t rootOf(std::size_t part) {
    while (root_[part] != part) part = root_[part] = root_[root_[part]];
    return part;
  }
  /// Whether any of those that hang together has a joint of its own.
  bool hasOwn(std::size_t root) const { return hasOwn_[root]; }

 private:
  void join(const GroupGap& gap, double requiredGapMm) {
    const std::size_t a = rootOf(gap.a), b = rootOf(gap.b);
    if (a == b || (hasOwn_[a] && hasOwn_[b] && gap.gapMm >= requiredGapMm)) return;
    root_[a] = b;
    hasOwn_[b] = hasOwn_[a] || hasOwn_[b];
  }

  std::vector<std::size_t> root_;
  std::vector<bool> hasOwn_;  // By root.
};

/// Takes apart groups whose parts move alike but hang on others by pins or guides of their own and
/// do not touch: two legs that swing together, two funnels that go down together.
std::vector<MotionGroup> takenApart(const std::vector<MotionGroup>& groups,
                                    const EvidenceTable& table, std::size_t partCount,
                                    double requiredGapMm) {
  NearParts near(partCount, table, requiredGapMm);
  std::vector<MotionGroup> result{groups.front()};
  for (std::size_t g = 1; g < groups.size(); ++g) {
    const std::size_t main = near.rootOf(groups[g].parts.front());
    std::map<std::size_t, MotionGroup> pieces;
    for (const std::size_t part : groups[g].parts) {
      const std::size_t root = near.rootOf(part);
      MotionGroup& piece = pieces[near.hasOwn(root) ? root : main];
      piece.D = groups[g].D;
      piece.onTheWay = groups[g].onTheWay;
      piece.parts.push_back(part);
    }
    for (auto& [root, piece] : pieces) result.push_back(std::move(piece));
  }
  std::sort(result.begin() + 1, result.end(), [](const MotionGroup& a, const MotionGroup& b) {
    return a.parts.front() < b.parts.front();
  });
  return result;
}

JointReason reasonOf(const PairEvidence& pair) {
  if (pair.evidence.isHeld()) return JointReason::held;
  const bool both = pair.evidence.nearInFirst && pair.evidence.nearInSecond;
  return both ? JointReason::near : JointReason::nearOnce;
}

std::vector<JointZone> zonesOf(std::vector<PinInHole> pins) {
  std::sort(pins.begin(), pins.end(),
            [](const PinInHole& a, const PinInHole& b) { return a.fromMm < b.fromMm; });
  std::vector<JointZone> zones;
  for (const PinInHole& pin : pins) {
    const JointZone zone{std::max(pin.holeRadiusMm, pin.pinRadiusMm) + kZoneMarginMm,
                         pin.fromMm - kZoneMarginMm, pin.toMm + kZoneMarginMm};
    if (!zones.empty() && zone.fromMm <= zones.back().toMm) {
      zones.back().radiusMm = std::max(zones.back().radiusMm, zone.radiusMm);
      zones.back().toMm = std::max(zones.back().toMm, zone.toMm);
    } else {
      zones.push_back(zone);
    }
  }
  return zones;
}

class Inference {
 public:
  Inference(const std::vector<PartInTwoModes>& parts, double requiredGapMm, unsigned threads)
      : parts_(parts), requiredGapMm_(requiredGapMm) {
    result_.groups = groupByMotion(parts);
    table_ = gatherEvidence(parts, result_.groups.groups, threads);
    result_.groups.groups = takenApart(result_.groups.groups, table_, parts.size(), requiredGapMm);
    groupOf_.resize(parts.size());
    for (std::size_t g = 0; g < groups().size(); ++g) {
      for (const std::size_t part : groups()[g].parts) groupOf_[part] = g;
    }
  }

  InferredMotion infer() {
    inTree_.assign(groups().size(), false);
    inTree_[0] = true;
    joinGroup(0, groups()[0].parts.front());
    for (std::size_t joined = 1; joined < groups().size(); ++joined) {
      if (const auto best = bestLink()) {
        link(*best);
      } else {
        hangOnGround();
      }
    }
    tellTouching();
    tellOtherPins();
    result_.joints = toldInOrder(result_.joints, parts_.size());
    return std::move(result_);
  }

 private:
  const std::vector<MotionGroup>& groups() const { return result_.groups.groups; }

  /// The best evidence between a group that hangs already and one that does not; its first part is
  /// the one that hangs.
  std::optional<PairEvidence> bestLink() const {
    const PairEvidence* best = nullptr;
    for (const PairEvidence& pair : table_.pairs) {
      const bool leads = inTree_[groupOf_[pair.a]] != inTree_[groupOf_[pair.b]];
      if (leads && (!best || pair.score > best->score)) best = &pair;
    }
    if (!best) return std::nullopt;
    return inTree_[groupOf_[best->a]] ? *best : turnedRound(*best);
  }

  void link(const PairEvidence& pair) {
    const std::size_t group = groupOf_[pair.b];
    inTree_[group] = true;
    addJoints(pair, PartId{pair.a}, reasonOf(pair));
    joinGroup(group, pair.b);
  }

  /// The group of the largest part that hangs nowhere yet.
  void hangOnGround() {
    std::size_t group = 0;
    double largest = -1;
    for (std::size_t g = 1; g < groups().size(); ++g) {
      const double size = boundsOf(*parts_[groups()[g].parts.front()].mesh).volume();
      if (inTree_[g] || size <= largest) continue;
      largest = size;
      group = g;
    }
    inTree_[group] = true;
    const std::size_t part = groups()[group].parts.front();
    const Eigen::AlignedBox3d box = boundsOf(*parts_[part].mesh);
    const Pose X = farthestMotion(groups().front(), groups()[group], box).X;
    addJoints({part, part, jointScrewOf(X, box.center()), {}, 0}, std::nullopt,
              JointReason::nothing);
    joinGroup(group, part);
  }

  void addJoints(const PairEvidence& pair, std::optional<PartId> parent, JointReason reason) {
    const Screw& screw = pair.screw;
    InferredJoint joint;
    joint.reason = reason;
    joint.pins = pair.evidence.pins;
    joint.joint.parent = parent;
    joint.joint.child = PartId{pair.b};
    joint.joint.along = screw.axis;
    const double place = placeAlong(pair);
    joint.joint.through = screw.point + place * screw.axis;
    if (kindOf(screw) == ScrewKind::travel) {
      joint.joint.through =
          boundsOf(*parts_[pair.b].mesh).center();  // No line is better than another.
    }
    for (PinInHole& pin : joint.pins) {
      pin.fromMm -= place;
      pin.toMm -= place;
    }
    joint.joint.zones = zonesOf(joint.pins);
    const std::string& name = parts_[pair.b].name;
    if (pair.evidence.ball) return addBall(name, *pair.evidence.ball, screw, joint);
    const ScrewKind kind = kindOf(screw);
    if (kind != ScrewKind::travel) {
      joint.joint.type = JointType::hinge;
      joint.joint.name = name + " hinge";
      joint.value.x() = screw.angleRad;
      result_.joints.push_back(joint);
      joint.pins.clear();
      joint.joint.zones.clear();
    }
    if (kind != ScrewKind::turn) {
      joint.joint.type = JointType::slide;
      joint.joint.name = name + " slide";
      joint.value.x() = screw.slideMm;
      result_.joints.push_back(joint);
    }
  }

  void addBall(const std::string& name, const BallInSocket& ball, const Screw& screw,
               InferredJoint joint) {
    joint.ball = ball;
    joint.joint.type = JointType::ball;
    joint.joint.name = name + " ball";
    const double radiusMm = std::max(ball.socketRadiusMm, ball.ballRadiusMm) + kZoneMarginMm;
    joint.joint.zones = {{radiusMm, 0, 0}};
    joint.value = screw.angleRad * screw.axis;
    result_.joints.push_back(joint);
  }

  /// Where on the screw's axis its joint is best said to be, from the screw's point.
  double placeAlong(const PairEvidence& pair) const {
    if (pair.evidence.ball) return pair.evidence.ball->centreMm;
    if (!pair.evidence.pins.empty()) {
      double from = pair.evidence.pins.front().fromMm, to = pair.evidence.pins.front().toMm;
      for (const PinInHole& pin : pair.evidence.pins) {
        from = std::min(from, pin.fromMm);
        to = std::max(to, pin.toMm);
      }
      return (from + to) / 2;
    }
    const Vector3d centre = boundsOf(*parts_[pair.b].mesh).center();
    return (centre - pair.screw.point).dot(pair.screw.axis);
  }

  /// Hangs a group's parts on the one that carries it, each on the one it is nearest to. On the
  /// ground what touches nothing needs no joint.
  void joinGroup(std::size_t group, std::size_t carrier) {
    std::set<std::size_t> waiting(groups()[group].parts.begin(), groups()[group].parts.end());
    std::set<std::size_t> hanging{carrier};
    waiting.erase(carrier);
    while (!waiting.empty()) {
      const GroupGap* nearest = nullptr;
      for (const GroupGap& gap : table_.gaps) {
        const bool leads = (hanging.count(gap.a) && waiting.count(gap.b)) ||
                           (hanging.count(gap.b) && waiting.count(gap.a));
        if (leads && (!nearest || gap.gapMm < nearest->gapMm)) nearest = &gap;
      }
      std::size_t parent = carrier, child = 0;
      if (nearest) {
        parent = hanging.count(nearest->a) ? nearest->a : nearest->b;
        child = hanging.count(nearest->a) ? nearest->b : nearest->a;
      } else {
        child = *std::find_if(groups()[group].parts.begin(), groups()[group].parts.end(),
                              [&](std::size_t part) { return waiting.count(part) > 0; });
      }
      waiting.erase(child);
      hanging.insert(child);
      if (nearest || group != 0) addFixed(parent, child);
    }
  }

  void addFixed(std::size_t parent, std::size_t child) {
    InferredJoint joint;
    joint.reason = JointReason::movesAlong;
    joint.joint.name = parts_[child].name + " fixed";
    joint.joint.parent = PartId{parent};
    joint.joint.child = PartId{child};
    result_.joints.push_back(joint);
  }

  bool joined(std::size_t a, std::size_t b) const {
    return std::any_of(result_.joints.begin(), result_.joints.end(), [&](const InferredJoint& j) {
      return j.joint.parent && ((j.joint.parent->index == a && j.joint.child.index == b) ||
                                (j.joint.parent->index == b && j.joint.child.index == a));
    });
  }

  void tellTouching() {
    for (const GroupGap& gap : table_.gaps) {
      const bool told = gap.gapMm < requiredGapMm_ && !joined(gap.a, gap.b);
      if (told) result_.touching.push_back({PartId{gap.a}, PartId{gap.b}, gap.gapMm});
    }
  }

  void tellOtherPins() {
    for (const PairEvidence& pair : table_.pairs) {
      if (!pair.evidence.isHeld() || joined(pair.a, pair.b)) continue;
      double least = pair.evidence.ball ? pair.evidence.ball->leastGapMm : requiredGapMm_;
      for (const PinInHole& pin : pair.evidence.pins) least = std::min(least, pin.leastGapMm);
      if (least < requiredGapMm_) {
        result_.otherPins.push_back({PartId{pair.a}, PartId{pair.b}, least});
      }
    }
  }

  const std::vector<PartInTwoModes>& parts_;
  double requiredGapMm_;
  EvidenceTable table_;
  std::vector<std::size_t> groupOf_;  // By part.
  std::vector<bool> inTree_;          // By group.
  InferredMotion result_;
};

}  // namespace

InferredMotion inferJoints(const std::vector<PartInTwoModes>& parts, double requiredGapMm,
                           unsigned threads) {
  return Inference(parts, requiredGapMm, threads).infer();
}

}  // namespace swingroom
