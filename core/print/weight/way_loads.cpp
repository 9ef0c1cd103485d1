#include "core/print/weight/way_loads.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace swingroom {
namespace {

constexpr double kNewtons = kStandardGravity / 1000;  // a gram's
/// The bracket of a load need not be narrower than this share of it, or this, N mm or N.
constexpr double kLoadAccuracy = 0.01, kLoadLeast = 1e-3;
constexpr std::size_t kFirstSpans = 8, kMostLooks = 400;  // of one step

/// How fast each joint runs through a step: rad or mm a step.
double stepRate(const Joint& joint, const Step& step, JointId id) {
  const JointValue& from = step.start.values.at(id.index);
  const JointValue& to = step.end.values.at(id.index);
  if (joint.type == JointType::ball) return ballTurn(from, to).norm();
  return (to - from).norm();
}

/// Bounds of how fast loads change in one step.
class StepSpeeds {
 public:
  StepSpeeds(const PrintSubject& subject, const Step& step, const std::vector<PartMass>& masses)
      : assembly_(*subject.assembly), step_(step), masses_(masses) {}

  /// Of the load of one of the figure's joints, a step: what turns above it turns its axis and what
  /// hangs on it against gravity; what moves below it moves the masses.
  double speedOf(const HungFigure& start, const HungJoint& hung) const {
    const Joint& joint = assembly_.joint(hung.joint);
    const bool slides = joint.type == JointType::slide;
    const double above = turnAbove(start, hung);
    double speed = 0;
    for (std::size_t i = 0; i < masses_.size(); ++i) {
      if (!masses_[i].known() || !start.hangsOn(PartId{i}, hung.child)) continue;
      const Reach reach = reachOf(start, hung, PartId{i});
      const double own = joint.type == JointType::slide ? 0 : stepRate(joint, step_, hung.joint);
      const double per = slides ? above : above * reach.mm + own * reach.mm + reach.speed;
      speed += masses_[i].massG * kNewtons * per;
    }
    return speed;
  }

  /// A joint on the way from the ground to what hangs on `hung` moves in any order with others.
  bool isFree(const HungFigure& start, const HungJoint& hung) const {
    if (step_.order != StepOrder::free) return false;
    return std::any_of(start.joints().begin(), start.joints().end(), [&](const HungJoint& other) {
      return (start.hangsOn(hung.child, other.child) || start.hangsOn(other.child, hung.child)) &&
             stepRate(assembly_.joint(other.joint), step_, other.joint) > 0;
    });
  }

 private:
  struct Reach {
    double mm = 0;     ///< A centre of mass is never farther from the joint.
    double speed = 0;  ///< Nor faster, seen from what the joint carries, mm a step.
  };

  double turnRate(JointId id) const {
    const Joint& joint = assembly_.joint(id);
    return joint.type == JointType::slide ? 0 : stepRate(joint, step_, id);
  }

  double turnAbove(const HungFigure& start, const HungJoint& hung) const {
    double turns = 0;
    for (std::optional<PartId> part = hung.child; part; part = start.parentOf(*part)) {
      const Mount* mount = holdingMount(assembly_, step_.start, *part);
      if (!mount) break;
      for (const JointId id : mount->joints) {
        if (*part == hung.child && id == hung.joint) break;  // The next ones it carries.
        turns += turnRate(id);
      }
    }
    return turns;
  }

  /// Joints from the part inwards to `hung`: each adds what it moves of what is farther out.
  Reach reachOf(const HungFigure& start, const HungJoint& hung, PartId part) const {
    Reach reach;
    Vector3d at = start.centreOf(part);
    for (std::optional<PartId> outer = part; outer; outer = start.parentOf(*outer)) {
      const Mount* mount = holdingMount(assembly_, step_.start, *outer);
      if (!mount) break;
      for (std::size_t k = mount->joints.size(); k-- > 0;) {
        const JointId id = mount->joints[k];
        const bool last = id == hung.joint;
        const Joint& joint = assembly_.joint(id);
        if (joint.type == JointType::slide) {
          const double run = stepRate(joint, step_, id);
          reach.mm += run;
          if (!last) reach.speed += run;
        }
        if (joint.type == JointType::hinge || joint.type == JointType::ball) {
          const Vector3d pivot = pivotOf(start, id);
          reach.mm += (at - pivot).norm();
          at = pivot;
          if (!last) reach.speed += turnRate(id) * reach.mm;
        }
        if (last) return reach;
      }
    }
    return reach;
  }

  static Vector3d pivotOf(const HungFigure& start, JointId id) {
    for (const HungJoint& hung : start.joints()) {
      if (hung.joint == id) return hung.point_W;
    }
    return Vector3d::Zero();
  }

  const Assembly& assembly_;
  const Step& step_;
  const std::vector<PartMass>& masses_;
};

class LoadSearch {
 public:
  LoadSearch(const PrintSubject& subject, const std::vector<PartMass>& masses,
             const WorkMonitor& monitor)
      : subject_(subject), masses_(masses), monitor_(monitor) {}

  std::vector<WorstLoad> run() {
    for (std::size_t way = 0; way < subject_.ways->size(); ++way) {
      const Sequence& sequence = subject_.ways->at(way);
      for (std::size_t step = 0; step < sequence.steps.size(); ++step) {
        if (isCancelled(&monitor_)) break;
        followStep(way, step);
      }
      const Configuration& end = sequence.steps.back().end;
      note(way, 1, end, HungFigure(*subject_.assembly, end, masses_, subject_.up_W));
    }
    std::vector<WorstLoad> worst;
    for (const auto& [id, load] : found_) worst.push_back(load);
    return worst;
  }

 private:
  struct Look {
    double part = 0;
    std::vector<double> loads;  ///< By the figure's joints.
  };

  Look lookAt(std::size_t way, std::size_t step, double part) {
    const Sequence& sequence = subject_.ways->at(way);
    const Configuration standing = configurationIn(*subject_.assembly, sequence.steps[step], part);
    const HungFigure figure(*subject_.assembly, standing, masses_, subject_.up_W);
    note(way, (static_cast<double>(step) + part) / static_cast<double>(sequence.steps.size()),
         standing, figure);
    Look look;
    look.part = part;
    for (const HungJoint& hung : figure.joints()) look.loads.push_back(hung.load.norm());
    return look;
  }

  /// Something else than its fit holds the joint there.
  bool isHeld(const HungJoint& hung, const Configuration& standing) const {
    const Joint& joint = subject_.assembly->joint(hung.joint);
    if (joint.type == JointType::ball) return false;
    const double value = standing.values.at(hung.joint.index).x();
    constexpr double kAtValue = 1e-6;
    for (const double click : joint.clicks) {
      if (std::abs(click - value) <= kAtValue) return true;
    }
    return hung.load.x() > 0 ? value >= joint.range.max - kAtValue
                             : value <= joint.range.min + kAtValue;
  }

  void note(std::size_t way, double instant, const Configuration& standing,
            const HungFigure& figure) {
    for (const HungJoint& hung : figure.joints()) {
      if (subject_.assembly->joint(hung.joint).type == JointType::fixed) continue;
      const auto [at, isNew] = found_.try_emplace(hung.joint);
      WorstLoad& worst = at->second;
      worst.joint = hung.joint;
      worst.offBy = std::max(worst.offBy, hung.loadOff);
      const bool between = instant > 0 && instant < 1;
      if (between && hung.load.norm() > worst.unheld && !isHeld(hung, standing)) {
        worst.unheld = hung.load.norm();
        worst.unheldWay = way;
        worst.unheldInstant = instant;
      }
      if (!isNew && hung.load.norm() <= worst.lower) continue;
      worst.lower = hung.load.norm();
      worst.upper = std::max(worst.upper, worst.lower);
      worst.way = way;
      worst.instant = instant;
    }
  }

  /// Halves the stretches in which a load may be greater than what was found anywhere.
  void followStep(std::size_t way, std::size_t index) {
    const Step& step = subject_.ways->at(way).steps[index];
    const HungFigure start(*subject_.assembly, step.start, masses_, subject_.up_W);
    std::vector<double> speeds;
    const StepSpeeds bounds(subject_, step, masses_);
    const bool stands = step.order == StepOrder::replug;
    for (const HungJoint& hung : start.joints()) {
      const bool fixed = subject_.assembly->joint(hung.joint).type == JointType::fixed;
      speeds.push_back(fixed || stands ? 0 : bounds.speedOf(start, hung));
      if (!fixed && bounds.isFree(start, hung)) found_[hung.joint].freeTogether = true;
    }
    if (std::all_of(speeds.begin(), speeds.end(), [](double speed) { return speed == 0; })) {
      lookAt(way, index, 0);
      return;
    }
    std::vector<Look> looks;
    for (std::size_t i = 0; i <= kFirstSpans; ++i) {
      looks.push_back(lookAt(way, index, static_cast<double>(i) / kFirstSpans));
    }
    refine(way, index, start, speeds, std::move(looks));
  }

  void refine(std::size_t way, std::size_t index, const HungFigure& start,
              const std::vector<double>& speeds, std::vector<Look> looks) {
    while (true) {
      std::vector<Look> next = {looks.front()};
      for (std::size_t i = 1; i < looks.size(); ++i) {
        const bool room = looks.size() < kMostLooks && !isCancelled(&monitor_);
        if (room && mayHoldMore(start, speeds, looks[i - 1], looks[i]))
          next.push_back(lookAt(way, index, 0.5 * (looks[i - 1].part + looks[i].part)));
        next.push_back(looks[i]);
      }
      if (next.size() == looks.size()) break;
      looks = std::move(next);
    }
    for (std::size_t j = 0; j < speeds.size(); ++j) {
      if (subject_.assembly->joint(start.joints()[j].joint).type == JointType::fixed) continue;
      WorstLoad& worst = found_[start.joints()[j].joint];
      for (std::size_t i = 1; i < looks.size(); ++i) {
        worst.upper = std::max(worst.upper, mostBetween(speeds[j], j, looks[i - 1], looks[i]));
      }
    }
  }

  /// Two cones of that slope meet between the two looks.
  static double mostBetween(double speed, std::size_t joint, const Look& a, const Look& b) {
    return 0.5 * (a.loads[joint] + b.loads[joint] + speed * (b.part - a.part));
  }

  bool mayHoldMore(const HungFigure& start, const std::vector<double>& speeds, const Look& a,
                   const Look& b) {
    for (std::size_t j = 0; j < speeds.size(); ++j) {
      if (speeds[j] == 0) continue;
      const double found = found_[start.joints()[j].joint].lower;
      const double enough = found + std::max(kLoadLeast, kLoadAccuracy * found);
      if (mostBetween(speeds[j], j, a, b) > enough) return true;
    }
    return false;
  }

  const PrintSubject& subject_;
  const std::vector<PartMass>& masses_;
  const WorkMonitor& monitor_;
  std::map<JointId, WorstLoad> found_;
};

}  // namespace

std::vector<WorstLoad> worstLoads(const PrintSubject& subject, const std::vector<PartMass>& masses,
                                  const WorkMonitor& monitor) {
  return LoadSearch(subject, masses, monitor).run();
}

}  // namespace swingroom
