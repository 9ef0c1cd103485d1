#include "core/rigging/joint_tree.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace swingroom {
namespace {

constexpr std::size_t kMostOthers = 6;
constexpr double kPinShare = 0.7;  // Of a pin's length that its one cylinder makes up.
constexpr double kPinHead = 2.2;   // Of its radius: what stands out farther is another part's pin.

/// Names that are not taken yet.
class FreshNames {
 public:
  explicit FreshNames(const std::vector<Joint>& joints) {
    for (const Joint& joint : joints) taken_.insert(joint.name);
  }

  std::string fresh(const std::string& wanted) {
    std::string name = wanted;
    for (int i = 2; !taken_.insert(name).second; ++i) name = wanted + " " + std::to_string(i);
    return name;
  }

 private:
  std::set<std::string> taken_;
};

Vector3d pointedPlainly(const Vector3d& along) {
  Eigen::Index largest = 0;
  along.cwiseAbs().maxCoeff(&largest);
  return along(largest) < 0 ? Vector3d(-along) : along;
}

class Hanging {
 public:
  Hanging(const RigQuestion& question, const std::vector<JointEdge>& edges,
          const std::vector<SuggestedPin>& pins, std::size_t ground)
      : question_(question),
        edges_(edges),
        hangs_(parts().size(), false),
        parent_(parts().size()),
        fixed_(parts().size(), false) {
    for (const SuggestedPin& pin : pins) {
      if (pin.isFree) waiting_.insert(pin.pin.index);
      for (const PinPlace& place : pin.places) {
        for (const PartId part : place.through) waiting_.insert(part.index);
      }
    }
    for (const Joint& joint : question.joints) {
      parent_[joint.child.index] = joint.parent ? std::optional(joint.parent->index) : std::nullopt;
      hasJoint_.insert(joint.child.index);
      fixed_[joint.child.index] = joint.type == JointType::fixed;
    }
    hang(ground);
    for (std::size_t part = 0; part < parts().size(); ++part) {
      if (hasJoint_.count(part) && !parent_[part]) hang(part);
    }
  }

  std::vector<SuggestedJoint> all() {
    while (const JointEdge* best = strongest()) add(*best);
    for (SuggestedJoint& joint : joints_) addOtherParents(joint);
    FreshNames names(question_.joints);
    for (SuggestedJoint& joint : joints_) nameAll(joint, names);
    return std::move(joints_);
  }

 private:
  const std::vector<RigPart>& parts() const { return question_.parts; }

  /// The part and all that hangs on it.
  void hang(std::size_t part) {
    if (hangs_[part]) return;
    hangs_[part] = true;
    for (std::size_t other = 0; other < parts().size(); ++other) {
      if (hasJoint_.count(other) && parent_[other] == part) hang(other);
    }
  }

  bool mayHang(std::size_t part) const { return !hangs_[part] && !hasJoint_.count(part); }

  bool leads(const JointEdge& edge) const {
    return (hangs_[edge.a] && mayHang(edge.b)) || (hangs_[edge.b] && mayHang(edge.a));
  }

  const JointEdge* strongest() const {
    const JointEdge* best = nullptr;
    for (const JointEdge& edge : edges_) {
      if (leads(edge) && !isWaiting(edge) && (!best || edge.strength() > best->strength()))
        best = &edge;
    }
    return best;
  }

  /// A part that a pin is yet to be placed in hangs by that pin, or by something better than that
  /// it touches another.
  bool isWaiting(const JointEdge& edge) const {
    constexpr double kSure = 0.5;
    const auto isOf = [&](std::size_t part) { return mayHang(part) && waiting_.count(part); };
    return edge.strength() < kSure && (isOf(edge.a) || isOf(edge.b));
  }

  /// The choices with the part that hangs already as parent.
  std::vector<JointChoice> choicesFor(const JointEdge& edge, std::size_t child) const {
    std::vector<JointChoice> choices;
    for (const JointChoice& choice : edge.choices) {
      choices.push_back(child == edge.b ? choice : turnedRound(choice));
      Joint& joint = choices.back().joint;
      if (joint.type != JointType::slide) continue;
      if (!edge.atStop) joint.along = pointedPlainly(joint.along);
      if (edge.byPin) continue;
      // No line is better than another.
      joint.through = parts()[child].X_WP * parts()[child].shape->bounds.center();
    }
    return choices;
  }

  void add(const JointEdge& edge) {
    const std::size_t child = hangs_[edge.a] ? edge.b : edge.a;
    const std::size_t parent = edge.other(child);
    std::vector<JointChoice> choices = choicesFor(edge, child);
    if (edge.byPin && isLoosePin(child, parent)) preferFixed(choices);
    parent_[child] = parent;
    fixed_[child] = choices.front().joint.type == JointType::fixed;
    hang(child);
    SuggestedJoint joint{choices.front(), {choices.begin() + 1, choices.end()}};
    joints_.push_back(std::move(joint));
  }

  /// A pin that would turn here and turns in another part as well: it need not turn twice.
  bool isLoosePin(std::size_t child, std::size_t parent) const {
    if (!plainPinOf(parts()[child])) return false;
    return std::any_of(edges_.begin(), edges_.end(), [&](const JointEdge& edge) {
      const bool ofPin = edge.byPin && (edge.a == child || edge.b == child);
      return ofPin && edge.other(child) != parent &&
             edge.choices.front().joint.type == JointType::hinge;
    });
  }

  static void preferFixed(std::vector<JointChoice>& choices) {
    const auto fixed = std::find_if(choices.begin(), choices.end(), [](const JointChoice& c) {
      return c.joint.type == JointType::fixed;
    });
    if (fixed == choices.end() || fixed == choices.begin()) return;
    fixed->strength = choices.front().strength;
    fixed->reason = choices.front().reason + "; it turns in its other part, so it may be fast here";
    std::rotate(choices.begin(), fixed, fixed + 1);
  }

  bool hangsOn(std::size_t part, std::size_t ancestor) const {
    for (std::optional<std::size_t> at = part; at; at = parent_[*at]) {
      if (*at == ancestor) return true;
    }
    return false;
  }

  void addOtherParents(SuggestedJoint& joint) {
    const std::size_t child = joint.best.joint.child.index;
    std::vector<JointChoice> found;
    for (const JointEdge& edge : edges_) {
      if (edge.a != child && edge.b != child) continue;
      const std::size_t other = edge.other(child);
      if (other == joint.best.joint.parent->index || hangsOn(other, child)) continue;
      found.push_back(choicesFor(edge, child).front());
    }
    joint.others.insert(joint.others.end(), found.begin(), found.end());
    std::stable_sort(
        joint.others.begin(), joint.others.end(),
        [](const JointChoice& a, const JointChoice& b) { return a.strength > b.strength; });
    if (joint.others.size() > kMostOthers) joint.others.resize(kMostOthers);
  }

  /// The part that the pin, if it is one, is fast in: what one would say the child hangs on.
  std::size_t spokenParent(std::size_t part) const {
    const bool isFastPin = plainPinOf(parts()[part]) && parent_[part] && fixed_[part];
    return isFastPin ? *parent_[part] : part;
  }

  std::string nameFor(const Joint& joint) const {
    const std::string& child = parts()[joint.child.index].name;
    const std::size_t parent = joint.parent->index;
    if (joint.type == JointType::fixed) {
      const char* how = plainPinOf(parts()[joint.child.index]) ? " in " : " on ";
      return child + how + parts()[parent].name;
    }
    return child + " to " + parts()[spokenParent(parent)].name;
  }

  void nameAll(SuggestedJoint& joint, FreshNames& names) const {
    joint.best.joint.name = names.fresh(nameFor(joint.best.joint));
    for (JointChoice& other : joint.others) {
      // Of one joint only one choice is taken: they may share a name.
      const std::string name = nameFor(other.joint);
      const bool same = name == nameFor(joint.best.joint);
      other.joint.name = same ? joint.best.joint.name : name;
    }
  }

  const RigQuestion& question_;
  const std::vector<JointEdge>& edges_;
  std::vector<bool> hangs_;
  std::set<std::size_t> hasJoint_;  // By a joint that was there before.
  std::vector<std::optional<std::size_t>> parent_;
  std::vector<bool> fixed_;        // On its parent.
  std::set<std::size_t> waiting_;  // For a pin that is suggested.
  std::vector<SuggestedJoint> joints_;
};

double sizeOf(const RigPart& part) {
  return part.shape ? part.shape->bounds.volume() : -1;
}

}  // namespace

std::vector<SuggestedJoint> hangAll(const RigQuestion& question,
                                    const std::vector<JointEdge>& edges,
                                    const std::vector<SuggestedPin>& pins, std::size_t ground) {
  return Hanging(question, edges, pins, ground).all();
}

std::optional<PartId> groundGuess(const RigQuestion& question,
                                  const std::vector<JointEdge>& edges) {
  std::vector<bool> hangs(question.parts.size(), false), carries(question.parts.size(), false);
  for (const Joint& joint : question.joints) {
    if (joint.parent)
      hangs[joint.child.index] = carries[joint.parent->index] = true;
    else
      carries[joint.child.index] = true;
  }
  std::vector<bool> hasEdge(question.parts.size(), false);
  for (const JointEdge& edge : edges) hasEdge[edge.a] = hasEdge[edge.b] = true;
  std::optional<PartId> best;
  const auto rank = [&](std::size_t part) {
    return std::tuple(!hangs[part] && carries[part], !hangs[part] && hasEdge[part],
                      sizeOf(question.parts[part]));
  };
  for (std::size_t part = 0; part < question.parts.size(); ++part) {
    if (!question.parts[part].shape) continue;
    if (!best || rank(part) > rank(best->index)) best = PartId{part};
  }
  return best;
}

const CylinderFeature* plainPinOf(const RigPart& part) {
  if (!part.shape) return nullptr;
  const CylinderFeature* longest = nullptr;
  for (const CylinderFeature& feature : part.shape->features.cylinders) {
    if (!feature.outward || feature.coverageRad < radFromDeg(300)) continue;
    const double length = feature.toMm - feature.fromMm;
    if (!longest || length > longest->toMm - longest->fromMm) longest = &feature;
  }
  if (!longest) return nullptr;
  double from = longest->fromMm, to = longest->toMm, widest = 0;
  for (const Vector3d& p : part.shape->mesh->vertices) {
    const Vector3d w = p - longest->through;
    const double at = w.dot(longest->along);
    from = std::min(from, at);
    to = std::max(to, at);
    widest = std::max(widest, (w - at * longest->along).norm());
  }
  const bool isPlain = longest->toMm - longest->fromMm >= kPinShare * (to - from) &&
                       widest <= kPinHead * longest->radiusMm && to - from >= 2 * longest->radiusMm;
  return isPlain ? longest : nullptr;
}

}  // namespace swingroom
