#include "core/print/weight/hold.h"

#include <algorithm>
#include <cmath>

#include "core/print/weight/hold_program.h"

namespace swingroom {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
/// Of the floor on a printed sole, for "droops": no less than any.
constexpr double kRoughFloor = 0.8;
/// Torques below this share of the figure's weight on a lever of 1 mm are rounding.
constexpr double kRoundingShare = 1e-5;

/// A joint's friction as it is used for "holds" and for "droops".
struct HoldLimits {
  double low = 0, high = kInfinite;
};

double newtons(double grams) {
  return grams * kStandardGravity / 1000;
}

class HoldJudge {
 public:
  explicit HoldJudge(const HoldQuestion& question) : question_(question) {
    rounding_ = kRoundingShare * newtons(figure().whole().massG) + 1e-12;
    for (const HungJoint& hung : figure().joints()) {
      shared_.push_back(isShared(hung));
      limits_.push_back(limitsOf(hung, shared_.back()));
    }
  }

  std::vector<JointHold> judge() {
    std::vector<double> low, high;
    for (std::size_t i = 0; i < limits_.size(); ++i) {
      const double off = figure().joints()[i].loadOff;
      low.push_back(std::max(0.0, limits_[i].low - off));
      high.push_back(limits_[i].high + off);
    }
    const auto careful = HoldProgram(question_, low, true, 0).solve();
    const auto generous = HoldProgram(question_, high, false, kRoughFloor).solve();
    std::vector<JointHold> holds;
    for (std::size_t i = 0; i < limits_.size(); ++i) {
      if (jointOf(i).type == JointType::fixed) continue;
      JointHold hold = described(i);
      if (careful && generous)
        decide(hold, i, (*careful)[i], (*generous)[i]);
      else
        hold.kind = HoldKind::unknown;
      holds.push_back(hold);
    }
    return holds;
  }

 private:
  const HungFigure& figure() const { return *question_.figure; }
  const Joint& jointOf(std::size_t i) const {
    return question_.assembly->joint(figure().joints()[i].joint);
  }

  /// The floor presses on what it carries, or a grip joins that to the rest.
  bool isShared(const HungJoint& hung) const {
    const auto carried = [&](PartId part) { return figure().hangsOn(part, hung.child); };
    for (const FloorPoint& point : question_.floor) {
      if (carried(point.part)) return true;
    }
    return std::any_of(question_.grips.begin(), question_.grips.end(), [&](const auto& grip) {
      return carried(grip.first) != carried(grip.second);
    });
  }

  /// The load across a pin is the weight that hangs on it; where the floor or a grip has a share,
  /// no less than nothing and no more than all.
  HoldLimits limitsOf(const HungJoint& hung, bool shared) const {
    const HoldingFriction& friction = question_.friction.at(hung.joint.index);
    if (!friction.known) return {};
    const double level = std::sqrt(std::max(0.0, 1 - std::pow(hung.axis_W.dot(question_.up_W), 2)));
    const double least = shared ? 0 : newtons(hung.hung.lowerG) * level;
    const double most = newtons(shared ? figure().whole().upperG : hung.hung.upperG);
    return {friction.low + friction.armLowMm * least, friction.high + friction.armHighMm * most};
  }

  JointHold described(std::size_t i) const {
    const HungJoint& hung = figure().joints()[i];
    JointHold hold;
    hold.joint = hung.joint;
    hold.parent = hung.parent;
    hold.child = hung.child;
    hold.at_W = hung.point_W;
    hold.hung = hung.hung;
    hold.load = hung.load.norm();
    hold.loadLower = std::max(0.0, hold.load - hung.loadOff);
    hold.loadUpper = hold.load + hung.loadOff;
    hold.shared = shared_[i];
    hold.holdsLow = limits_[i].low;
    hold.holdsHigh = limits_[i].high;
    return hold;
  }

  void decide(JointHold& hold, std::size_t i, const JointShare& careful,
              const JointShare& generous) const {
    const double off = figure().joints()[i].loadOff;
    const bool holds = careful.excess <= rounding_;
    hold.needed = careful.friction;
    hold.neededUpper = careful.friction > rounding_ ? careful.friction + off : careful.friction;
    if (!hold.shared && hold.load <= off + rounding_) {
      hold.kind = HoldKind::level;
    } else if (holds) {
      hold.kind = heldKind(i, careful);
    } else if (generous.excess > rounding_) {
      hold.kind = HoldKind::droops;
      hold.needed = generous.friction;
      hold.neededUpper = generous.friction + off;
    } else {
      hold.kind = std::isinf(hold.holdsHigh) ? HoldKind::unknown : HoldKind::mayDroop;
    }
  }

  HoldKind heldKind(std::size_t i, const JointShare& share) const {
    if (share.friction > rounding_) return HoldKind::friction;
    if (share.click > rounding_) return HoldKind::click;
    if (share.stop > rounding_) return HoldKind::stop;
    const HungJoint& hung = figure().joints()[i];
    if (hung.load.norm() <= rounding_) return HoldKind::level;
    const auto carried = [&](PartId part) { return figure().hangsOn(part, hung.child); };
    const bool gripped =
        std::any_of(question_.grips.begin(), question_.grips.end(),
                    [&](const auto& grip) { return carried(grip.first) != carried(grip.second); });
    return gripped ? HoldKind::grip : HoldKind::floor;
  }

  const HoldQuestion& question_;
  std::vector<bool> shared_;
  std::vector<HoldLimits> limits_;
  double rounding_ = 0;
};

}  // namespace

std::vector<JointHold> jointHolds(const HoldQuestion& question) {
  return HoldJudge(question).judge();
}

}  // namespace swingroom
