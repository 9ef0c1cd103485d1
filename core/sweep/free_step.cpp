#include "core/sweep/free_step.h"

#include <algorithm>
#include <limits>
#include <memory>
#include <queue>

#include "core/sweep/interval_gap.h"

namespace swingroom {
namespace {

constexpr double kMeetMm = 1e-6;      ///< Nearer than this is a touch, as for `followTrack`.
constexpr double kLeastSpan = 1e-7;   ///< Of a freedom's way: smaller boxes are given up.
constexpr double kBoxBracketShare = 0.98;

/// Some values of each freedom, as shares of its way.
struct ValueBox {
  std::vector<double> low, high;
  double lowerMm = 0;
  std::shared_ptr<const Front> front;
  std::optional<TrianglePair> nearest;

  std::vector<double> middle() const {
    std::vector<double> parts(low.size());
    for (std::size_t f = 0; f < low.size(); ++f) parts[f] = 0.5 * (low[f] + high[f]);
    return parts;
  }
};

struct LeastProven {
  bool operator()(const ValueBox& x, const ValueBox& y) const {
    if (x.lowerMm != y.lowerMm) return x.lowerMm > y.lowerMm;
    return x.low > y.low;  // No two boxes begin at the same values: the order is the same in every run.
  }
};

class FreeStepFollower {
 public:
  FreeStepFollower(const BoundingTree& treeA, const BoundingTree& treeB, const RelativeMotion& motion,
                   const TrackQuestion& question, const WorkMonitor& monitor)
      : motion_(motion),
        question_(question),
        monitor_(monitor),
        swapped_(outreaches(treeA, treeB, motion)),
        treeA_(swapped_ ? treeB : treeA),
        treeB_(swapped_ ? treeA : treeB),
        neededMm_(std::max(question.neededMm - kSlackMm, kMeetMm)),
        bracketMm_(kBoxBracketShare * question.resolutionMm) {}

  FreeStepTrack run() {
    const std::size_t count = motion_.freedoms();
    ValueBox all{std::vector<double>(count, 0), std::vector<double>(count, 1), 0,
                 std::make_shared<const Front>(wholeFront()), {}};
    lookAtCorners(all);
    boxes_.push(std::move(all));
    while (!boxes_.empty() && !met() && goesOn()) {
      ValueBox box = boxes_.top();
      boxes_.pop();
      look(box);
    }
    return conclude();
  }

 private:
  /// B's points are what the bounds let move: the part that reaches less far.
  static bool outreaches(const BoundingTree& treeA, const BoundingTree& treeB, const RelativeMotion& motion) {
    const MotionAtInstant middle = motion.at(0.5);
    return wholeTravelMm(treeB, middle, false) > wholeTravelMm(treeA, middle, true);
  }

  MotionAtInstant motionAt(const std::vector<double>& parts) const {
    return swapped_ ? seenFromB(motion_.at(parts)) : motion_.at(parts);
  }

  bool met() const { return bestMm_ <= kMeetMm; }
  /// Gap that every box has to be proven to have, for the verdict and for the bracket.
  double verdictGoal() const { return bestMm_ < neededMm_ ? kMeetMm : neededMm_; }
  double bracketGoal() const {
    if (question_.mattersBelowMm <= 0) return 0;
    return bestMm_ < question_.mattersBelowMm ? bestMm_ - bracketMm_ : question_.mattersBelowMm - kMeetMm;
  }

  bool goesOn() {
    if (monitor_.cancelled()) return false;
    const double leastMm = boxes_.top().lowerMm;
    if (leastMm < verdictGoal()) return track_.nodeTests < question_.budget / 10;
    if (verdictAt_ == 0) verdictAt_ = track_.nodeTests;
    return leastMm < bracketGoal() && track_.nodeTests - verdictAt_ < question_.budget / 100;
  }

  double interest() const {
    const double matters = question_.mattersBelowMm > 0 ? question_.mattersBelowMm + 2 * bracketMm_ : 0;
    return std::max({std::min(bestMm_, matters), neededMm_, 2 * kMeetMm});
  }

  void note(const IntervalGap& gap, const std::vector<double>& parts) {
    track_.nodeTests += gap.nodeTests;
    if (!gap.found || gap.middleMm >= bestMm_ - 1e-9) return;
    bestMm_ = gap.middleMm;
    bestPair_ = gap.nearest;
    track_.parts = parts;
    const Pose X_AB = motion_.at(parts).X_AB;
    track_.least.onA_A = swapped_ ? X_AB * gap.onB_A : gap.onA_A;
    track_.least.onB_A = swapped_ ? X_AB * gap.onA_A : gap.onB_A;
  }

  /// Least gaps often stand where every joint is at an end.
  void lookAtCorners(const ValueBox& all) {
    const std::size_t count = motion_.freedoms();
    constexpr std::size_t kMostFreedoms = 4;
    if (count > kMostFreedoms) return;
    for (std::size_t corner = 0; corner < (1u << count); ++corner) {
      std::vector<double> parts(count);
      for (std::size_t f = 0; f < count; ++f) parts[f] = (corner >> f) & 1 ? 1 : 0;
      FrontQuestion question;
      question.findBelowMm = interest();
      question.hint = bestPair_;
      note(gapWithin(treeA_, treeB_, motionAt(parts), question, *all.front), parts);
    }
  }

  void look(ValueBox& box) {
    const std::vector<double> parts = box.middle();
    MotionPiece piece{motionAt(parts), 1, false};
    for (MovingAxis& axis : piece.middle.axes) {
      const double half = 0.5 * (box.high[axis.freedom] - box.low[axis.freedom]);
      axis.turnRateRad *= half;
      axis.slideRateMm *= half;
    }
    FrontQuestion question;
    question.findBelowMm = interest();
    question.neededMm = neededMm_;
    question.leastMm = kMeetMm;
    question.mattersBelowMm = question_.mattersBelowMm;
    question.bracketMm = bracketMm_;
    question.bestMm = bestMm_;
    question.slackMm = 0.05 * bracketMm_;
    question.hint = box.nearest ? box.nearest : bestPair_;
    auto left = std::make_shared<Front>();
    const IntervalGap gap = advanceFront(treeA_, treeB_, piece, question, *box.front, *left);
    note(gap, parts);
    if (met()) return;
    box.lowerMm = std::max(box.lowerMm, gap.lowerMm);
    if (box.lowerMm >= std::max(neededMm_, bracketGoal())) {
      leastDoneMm_ = std::min(leastDoneMm_, box.lowerMm);
      return;
    }
    if (gap.found) box.nearest = gap.nearest;
    box.front = std::move(left);
    halve(box, piece.middle);
  }

  /// Along the freedom that can move B farthest.
  void halve(ValueBox& box, const MotionAtInstant& scaled) {
    std::size_t widest = 0;
    double farthestMm = -1;
    for (std::size_t f = 0; f < box.low.size(); ++f) {
      MotionAtInstant alone{scaled.X_AB, {}};
      for (const MovingAxis& axis : scaled.axes) {
        if (axis.freedom == f) alone.axes.push_back(axis);
      }
      const double travelMm = wholeTravelMm(treeB_, alone, false);
      if (travelMm > farthestMm) widest = f, farthestMm = travelMm;
    }
    if (box.high[widest] - box.low[widest] < kLeastSpan) {
      givenUpMm_ = std::min(givenUpMm_, box.lowerMm);
      return;
    }
    const double middle = 0.5 * (box.low[widest] + box.high[widest]);
    ValueBox other = box;
    box.high[widest] = middle;
    other.low[widest] = middle;
    boxes_.push(std::move(box));
    boxes_.push(std::move(other));
  }

  /// The figure that is told is the gap at its combination, without slack.
  void tellExactly() {
    if (!bestPair_ || met()) return;
    FrontQuestion question;
    question.findBelowMm = bestMm_ + kMeetMm;
    question.hint = bestPair_;
    const std::vector<double> parts = track_.parts;
    note(gapWithin(treeA_, treeB_, motionAt(parts), question, wholeFront()), parts);
  }

  FreeStepTrack conclude() {
    tellExactly();
    double provenMm = std::min(leastDoneMm_, givenUpMm_);
    if (!boxes_.empty()) provenMm = std::min(provenMm, boxes_.top().lowerMm);
    if (met()) {
      track_.standing = Standing::clash;
      provenMm = bestMm_ = 0;
    } else if (provenMm < verdictGoal() || monitor_.cancelled()) {
      track_.standing = Standing::unproven;
    } else {
      track_.standing = bestMm_ < neededMm_ ? Standing::tight : Standing::clear;
    }
    if (bestMm_ < std::numeric_limits<double>::infinity()) track_.least.upperMm = bestMm_;
    track_.least.lowerMm = std::min(provenMm, bestMm_);
    return std::move(track_);
  }

  const RelativeMotion& motion_;
  const TrackQuestion& question_;
  const WorkMonitor& monitor_;
  bool swapped_;
  const BoundingTree& treeA_;
  const BoundingTree& treeB_;
  double neededMm_;
  double bracketMm_;

  std::priority_queue<ValueBox, std::vector<ValueBox>, LeastProven> boxes_;
  double bestMm_ = std::numeric_limits<double>::infinity();
  std::optional<TrianglePair> bestPair_;
  double leastDoneMm_ = std::numeric_limits<double>::infinity();
  double givenUpMm_ = std::numeric_limits<double>::infinity();
  std::uint64_t verdictAt_ = 0;  ///< Node tests when the verdict stood.
  FreeStepTrack track_;
};

}  // namespace

FreeStepTrack followFreeStep(const BoundingTree& treeA, const BoundingTree& treeB, const RelativeMotion& motion,
                             const TrackQuestion& question, const WorkMonitor& monitor) {
  if (treeA.empty() || treeB.empty()) {
    FreeStepTrack track;
    track.standing = Standing::clear;
    track.least.lowerMm = std::numeric_limits<double>::infinity();
    return track;
  }
  return FreeStepFollower(treeA, treeB, motion, question, monitor).run();
}

}  // namespace swingroom
