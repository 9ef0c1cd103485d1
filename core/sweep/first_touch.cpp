#include "core/sweep/first_touch.h"

#include <algorithm>
#include <map>
#include <memory>

#include "core/sweep/interval_gap.h"

namespace swingroom {
namespace {

constexpr double kGiveUpWidth = 1e-9;  ///< Of the whole: what is undecided there ends the search.
/// Of what is needed: no bound can tell a gap from what is needed to the last bit.
constexpr double kCountsAsTouch = 1.05;

/// Shares of one stretch, with what is left to prove there.
struct Span {
  std::size_t stretch = 0;
  double low = 0, high = 1;
  std::shared_ptr<const Front> front;
  std::optional<TrianglePair> nearest;

  double middle() const { return 0.5 * (low + high); }
};

class TouchSearch {
 public:
  TouchSearch(const BoundingTree& treeA, const BoundingTree& treeB,
              const std::vector<MotionStretch>& motion, const FirstTouchQuestion& question,
              const WorkMonitor& monitor)
      : motion_(motion),
        question_(question),
        monitor_(monitor),
        swapped_(reach(treeB, false) > reach(treeA, true)),
        treeA_(swapped_ ? treeB : treeA),
        treeB_(swapped_ ? treeA : treeB) {}

  FirstTouch run() {
    const auto whole = std::make_shared<const Front>(wholeFront());
    for (std::size_t s = 0; s < motion_.size() && !found_.touchedAt; ++s) {
      const MotionStretch& stretch = motion_[s];
      if (stretch.from >= question_.until) break;
      const double length = stretch.to - stretch.from;
      const double last = std::min(1.0, (question_.until - stretch.from) / length);
      spans_.push_back({s, 0, last, whole, {}});
      while (!spans_.empty() && !found_.touchedAt && !monitor_.cancelled()) {
        Span span = std::move(spans_.back());
        spans_.pop_back();
        look(span);
      }
      // All before it is proven after all: it is as near as that, and no nearer.
      if (seen_ && !found_.touchedAt) found_.touchedAt = seen_;
    }
    return found_;
  }

 private:
  double reach(const BoundingTree& tree, bool isA) const {
    double mm = 0;
    for (const MotionStretch& stretch : motion_)
      mm += wholeTravelMm(tree, stretch.motion.at(0.5), isA);
    return mm;
  }
  MotionAtInstant motionAt(std::size_t stretch, double part) const {
    const MotionAtInstant motion = motion_[stretch].motion.at(part);
    return swapped_ ? seenFromB(motion) : motion;
  }
  double shareOf(const Span& span, double part) const {
    const MotionStretch& stretch = motion_[span.stretch];
    return part >= 1 ? stretch.to : stretch.from + part * (stretch.to - stretch.from);
  }

  /// Parts that turn about one line keep their distance as bodies of revolution. Only where the
  /// first looks do not do: making the rings costs more than they do.
  void useRings(FrontQuestion& question, const Span& span) {
    if (span.high - span.low > 0.2) return;
    const auto [known, isNew] = rings_.try_emplace(span.stretch);
    auto& [ofA, ofB] = known->second;
    if (isNew) {
      const MotionAtInstant motion = motionAt(span.stretch, 0.5);
      if (const auto line = turningLine(motion)) {
        const Pose X_BA = motion.X_AB.inverse();
        ofA.emplace(treeA_, *line);
        ofB.emplace(treeB_, AxisLine{X_BA * line->point, X_BA.linear() * line->direction});
      }
    }
    if (ofA) question.revolvedA = &*ofA, question.revolvedB = &*ofB;
  }

  void look(Span& span) {
    if (found_.nodeTests > question_.budget) return stopAt(span, shareOf(span, span.high), false);
    FrontQuestion question;
    question.neededMm = question.leastMm = question_.neededMm;
    question.findBelowMm = kCountsAsTouch * question_.neededMm;
    question.hint = span.nearest;
    useRings(question, span);
    auto left = std::make_shared<Front>();
    const MotionPiece piece{motionAt(span.stretch, span.middle()), 0.5 * (span.high - span.low)};
    const IntervalGap gap = advanceFront(treeA_, treeB_, piece, question, *span.front, *left);
    found_.nodeTests += gap.nodeTests;
    if (gap.lowerMm >= question_.neededMm) {
      found_.freeTo = shareOf(span, span.high);
      return;
    }
    if (gap.found) span.nearest = gap.nearest;
    if (gap.middleMm > 0) span.front = std::move(left);
    split(span, gap.found);
  }

  /// What comes after a touch does not matter.
  void split(const Span& span, bool touchesAtMiddle) {
    const double width = shareOf(span, span.high) - shareOf(span, span.low);
    if (touchesAtMiddle && 0.5 * width <= question_.within)
      return stopAt(span, shareOf(span, span.middle()), true);
    if (width <= kGiveUpWidth) return stopAt(span, shareOf(span, span.high), false);
    Span half = span;
    if (touchesAtMiddle) {
      seen_ = shareOf(span, span.middle());
      spans_.clear();
    } else {
      half.low = span.middle();
      spans_.push_back(half);
      half.low = span.low;
    }
    half.high = span.middle();
    spans_.push_back(std::move(half));
  }

  void stopAt(const Span& span, double share, bool proven) {
    found_.freeTo = shareOf(span, span.low);
    found_.touchedAt = share;
    found_.proven = proven;
  }

  const std::vector<MotionStretch>& motion_;
  const FirstTouchQuestion& question_;
  const WorkMonitor& monitor_;
  bool swapped_;
  const BoundingTree& treeA_;
  const BoundingTree& treeB_;
  std::vector<Span> spans_;     ///< The earliest last.
  std::optional<double> seen_;  ///< The earliest touch so far.
  std::map<std::size_t, std::pair<std::optional<RevolvedTree>, std::optional<RevolvedTree>>> rings_;
  FirstTouch found_;
};

}  // namespace

FirstTouch firstTouch(const BoundingTree& treeA, const BoundingTree& treeB,
                      const std::vector<MotionStretch>& motion, const FirstTouchQuestion& question,
                      const WorkMonitor& monitor) {
  return TouchSearch(treeA, treeB, motion, question, monitor).run();
}

}  // namespace swingroom
