#include "core/sweep/free_travel.h"

#include <algorithm>
#include <cmath>

#include "core/sweep/first_touch.h"

namespace swingroom {
namespace {

constexpr double kWithinRad = 1e-6, kWithinMm = 1e-5;  ///< How closely a touch is told.

struct MovedPair {
  PartId a, b;
  const JudgedSurfaces* surfaces = nullptr;
  std::vector<MotionStretch> motion;
  double neededMm = kTravelTouchMm;
  double apartMm = 0;  ///< Of the whole boxes as everything stands.
};

/// One way, up or down.
class Traveller {
 public:
  Traveller(const Assembly& assembly, const StandingGaps& gaps, const Configuration& standing,
            const TravelQuestion& question, const std::vector<std::pair<PartId, PartId>>& meeting,
            double to, const WorkMonitor& monitor)
      : assembly_(assembly),
        gaps_(gaps),
        standing_(standing),
        question_(question),
        meeting_(meeting),
        monitor_(monitor),
        from_(driven(question.drive, standing)),
        to_(to),
        way_(drivenWay(assembly, standing, question.drive, from_, to)) {}

  TravelWay run() {
    TravelWay way{to_, std::nullopt};
    if (to_ == from_) return way;
    double until = 1;
    const bool slides = assembly_.joint(question_.drive.joint).type == JointType::slide;
    const double within = (slides ? kWithinMm : kWithinRad) / std::abs(to_ - from_);
    for (MovedPair& pair : nearestFirst()) {
      if (monitor_.cancelled()) break;
      if (comesNearerAtOnce(pair)) {
        stop(way, pair, {0, 0.0, true, 0});
        break;
      }
      const FirstTouch touch =
          firstTouch(pair.surfaces->a->tree, pair.surfaces->b->tree, pair.motion,
                     {pair.neededMm, until, within, question_.budget - spent_}, monitor_);
      spent_ = std::min(question_.budget, spent_ + touch.nodeTests);
      if (!touch.touchedAt) continue;
      until = touch.freeTo;
      stop(way, pair, touch);
      if (until <= 0) break;
    }
    if (way.stop) tellWhere(way);
    return way;
  }

 private:
  double numberAt(double share) const { return share >= 1 ? to_ : from_ + share * (to_ - from_); }

  void stop(TravelWay& way, const MovedPair& pair, const FirstTouch& touch) {
    way.freeTo = numberAt(touch.freeTo);
    way.stop = TravelStop{pair.a, pair.b, numberAt(*touch.touchedAt), touch.proven, {}};
  }

  std::vector<MotionStretch> motionOf(PartId a, PartId b) const {
    std::vector<MotionStretch> motion;
    const auto count = static_cast<double>(way_.stands.size() - 1);
    for (std::size_t i = 0; i + 1 < way_.stands.size(); ++i) {
      const Step step{{}, StepOrder::together, way_.stands[i], way_.stands[i + 1]};
      motion.push_back({RelativeMotion(assembly_, step, a, b), static_cast<double>(i) / count,
                        static_cast<double>(i + 1) / count});
      if (motion.back().motion.isConstant()) return {};
    }
    return motion;
  }

  bool isLeftOut(PartId a, PartId b) const {
    const PairRule* rule = assembly_.ruleFor(a, b);
    if (rule && rule->allowReason) return true;
    return std::find(meeting_.begin(), meeting_.end(), std::pair(a, b)) != meeting_.end();
  }

  /// How far a chord's points may be off the true way, mm, for the two parts.
  double offMm(const MovedPair& pair) const {
    if (way_.offRad == 0) return 0;
    const auto D = displacementsOf(assembly_, standing_);
    const Joint& joint = assembly_.joint(question_.drive.joint);
    const Vector3d centre_W =
        joint.parent ? Vector3d(D[joint.parent->index] * joint.through) : joint.through;
    double farthestMm = 0;
    for (const auto& [part, surface] :
         {std::pair(pair.a, pair.surfaces->a), std::pair(pair.b, pair.surfaces->b)}) {
      const auto& ball = surface->tree.root();
      const Vector3d middle_W = D[part.index] * (assembly_.part(part).X_WP_home * ball.centre);
      farthestMm = std::max(farthestMm, (middle_W - centre_W).norm() + ball.radius);
    }
    return way_.offRad * farthestMm;
  }

  std::vector<MovedPair> nearestFirst() const {
    std::vector<MovedPair> pairs;
    const std::size_t count = assembly_.parts().size();
    for (PartId a; a.index < count; ++a.index) {
      for (PartId b{a.index + 1}; b.index < count; ++b.index) {
        if (!gaps_.hasSurfaces(a, b)) continue;
        MovedPair pair{a, b, nullptr, motionOf(a, b)};
        if (pair.motion.empty() || isLeftOut(a, b)) continue;
        pair.surfaces = &gaps_.surfacesOf(standing_, a, b);
        if (pair.surfaces->a->tree.empty() || pair.surfaces->b->tree.empty()) continue;
        pair.neededMm += offMm(pair);
        const MotionAtInstant start{pair.motion.front().motion.at(0).X_AB, {}};
        pair.apartMm = wholeBoxesApart(pair.surfaces->a->tree, pair.surfaces->b->tree, {start, 0});
        pairs.push_back(std::move(pair));
      }
    }
    std::stable_sort(pairs.begin(), pairs.end(),
                     [](const MovedPair& x, const MovedPair& y) { return x.apartMm < y.apartMm; });
    return pairs;
  }

  IntervalGap gapAt(const MovedPair& pair, std::size_t stretch, double part, double belowMm) const {
    FrontQuestion question;
    question.findBelowMm = belowMm;
    const MotionAtInstant still{pair.motion[stretch].motion.at(part).X_AB, {}};
    return gapWithin(pair.surfaces->a->tree, pair.surfaces->b->tree, still, question, wholeFront());
  }

  /// Stands all but touching, as where it was stopped before. Where it is brought nearer it stays;
  /// else it may come away, or slide along, with half of what there is.
  bool comesNearerAtOnce(MovedPair& pair) const {
    const double standsBelowMm = 2 * pair.neededMm;
    if (pair.apartMm >= standsBelowMm) return false;
    const IntervalGap now = gapAt(pair, 0, 0, standsBelowMm);
    if (!now.found) return false;
    constexpr double kALittle = 1e-3;  ///< Of the first stretch.
    const IntervalGap soon = gapAt(pair, 0, kALittle, now.middleMm);
    if (soon.found && soon.middleMm < now.middleMm - 1e-9) return true;
    pair.neededMm = 0.5 * now.middleMm;
    return false;
  }

  void tellWhere(TravelWay& way) const {
    const Configuration there = drivenTo(assembly_, standing_, question_.drive, way.freeTo);
    const auto gap = gaps_.gapOf(there, way.stop->a, way.stop->b, 1);
    if (gap && !gap->meets) way.stop->point_W = 0.5 * (gap->points_W[0] + gap->points_W[1]);
  }

  const Assembly& assembly_;
  const StandingGaps& gaps_;
  const Configuration& standing_;
  const TravelQuestion& question_;
  const std::vector<std::pair<PartId, PartId>>& meeting_;
  const WorkMonitor& monitor_;
  double from_, to_;
  DrivenWay way_;
  std::uint64_t spent_ = 0;
};

/// Pairs that this drive moves against each other and that meet now.
std::vector<std::pair<PartId, PartId>> meetingNow(const Assembly& assembly,
                                                  const StandingGaps& gaps,
                                                  const Configuration& standing,
                                                  const TravelQuestion& question) {
  std::vector<std::pair<PartId, PartId>> meeting;
  const double now = driven(question.drive, standing);
  const double aside = question.greatest > now ? question.greatest : question.least;
  const Step step{{},
                  StepOrder::together,
                  standing,
                  drivenTo(assembly, standing, question.drive, 0.5 * (now + aside))};
  const std::size_t count = assembly.parts().size();
  for (PartId a; a.index < count; ++a.index) {
    for (PartId b{a.index + 1}; b.index < count; ++b.index) {
      if (!gaps.hasSurfaces(a, b) || RelativeMotion(assembly, step, a, b).isConstant()) continue;
      const auto gap = gaps.gapOf(standing, a, b, kTravelTouchMm);
      if (gap && gap->meets) meeting.emplace_back(a, b);
    }
  }
  return meeting;
}

}  // namespace

FreeTravel freeTravel(const Assembly& assembly, const StandingGaps& gaps,
                      const Configuration& standing, const TravelQuestion& question,
                      const WorkMonitor& monitor) {
  const double now = driven(question.drive, standing);
  FreeTravel travel;
  travel.meeting = meetingNow(assembly, gaps, standing, question);
  const auto go = [&](double to) {
    return Traveller(assembly, gaps, standing, question, travel.meeting, to, monitor).run();
  };
  travel.down = go(std::min(question.least, now));
  travel.up = go(std::max(question.greatest, now));
  return travel;
}

}  // namespace swingroom
