#include "core/sweep/track.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "core/sweep/interval_gap.h"

namespace swingroom {
namespace {

constexpr double kTouchMm = 1e-6;        ///< Nearer than this is a touch.
constexpr double kEndsWithin = 2.5e-5;   ///< Of the sequence: a stretch's ends are looked for this closely.
constexpr double kLeastWidth = 1e-9;     ///< Of the sequence: an undecided touch is given up as one.
constexpr double kClashPiece = 1.0 / 512;  ///< Of a phase: longest piece taken as clash from three instants.
constexpr int kFirstPieces = 4;          ///< A phase is looked at in these to begin with.
constexpr double kBracketShare = 0.98;   ///< Of the resolution, so that printed digits keep it too.
constexpr int kPolishRounds = 40;

struct Cell {
  std::size_t phase = 0;
  double low = 0, high = 1;  ///< Of the phase.
  double lowerMm = 0;        ///< Proven for it, from itself or its parent.
  std::optional<Standing> standing;

  double middle() const { return 0.5 * (low + high); }
  double width() const { return high - low; }
};

/// How fast, at most, points of one surface move against the other part in the middle of the phases.
double reachOf(const BoundingTree& tree, const std::vector<Phase>& phases, bool isA) {
  double speed = 0;
  for (const Phase& phase : phases) {
    if (phase.motion->isConstant() || tree.empty()) continue;
    const MotionAtInstant motion = phase.motion->at(0.5);
    const Vector3d centre_A = isA ? tree.root().centre : Vector3d(motion.X_AB * tree.root().centre);
    speed += TravelBounds(motion, 1).travelMm(centre_A, tree.root().radius);
  }
  return speed;
}

class Follower {
 public:
  Follower(const BoundingTree& treeA, const BoundingTree& treeB, const std::vector<Phase>& phases,
           const TrackQuestion& question, const WorkMonitor& monitor)
      : swapped_(reachOf(treeB, phases, false) > reachOf(treeA, phases, true)),
        treeA_(swapped_ ? treeB : treeA),
        treeB_(swapped_ ? treeA : treeB),
        phases_(phases),
        question_(question),
        monitor_(monitor),
        neededMm_(std::max(question.neededMm - kSlackMm, kTouchMm)),
        bracketMm_(kBracketShare * question.resolutionMm) {}

  Track run() {
    seed();
    std::vector<Cell> level = firstCells();
    while (!level.empty() && !monitor_.cancelled()) {
      next_.clear();
      for (const Cell& cell : level) look(cell);
      level.swap(next_);
    }
    polish();
    return finish();
  }

 private:
  double instantOf(std::size_t phase, double part) const {
    const auto& [motion, from, to] = phases_[phase];
    return part >= 1 ? to : from + part * (to - from);
  }
  bool isConstant(std::size_t phase) const { return phases_[phase].motion->isConstant(); }
  /// Width of a cell in instants.
  double widthOf(const Cell& cell) const {
    return cell.width() * (phases_[cell.phase].to - phases_[cell.phase].from);
  }

  bool bracketing() const { return question_.mattersBelowMm > 0 && bestMm_ > 0; }
  /// What must be proven of a cell for the bracket of the least gap.
  double bracketGoal() const {
    if (!bracketing()) return 0;
    const bool matters = found_ && bestMm_ < question_.mattersBelowMm;
    return matters ? bestMm_ - bracketMm_ : question_.mattersBelowMm - kTouchMm;
  }
  /// Gaps above this need not be told apart. A little over what matters, so that one right at it is found.
  double interest() const {
    const double matters = question_.mattersBelowMm > 0 ? question_.mattersBelowMm + 2 * bracketMm_ : 0;
    return std::max({std::min(bestMm_, matters), neededMm_, 2 * kTouchMm});
  }

  IntervalGap ask(std::size_t phase, double part, double halfWidth, double proveMm, double findBelowMm) {
    const MotionAtInstant motion = phases_[phase].motion->at(part);
    const IntervalGap gap =
        intervalGap(treeA_, treeB_, swapped_ ? seenFromB(motion) : motion, halfWidth, {proveMm, findBelowMm});
    nodeTests_ += gap.nodeTests;
    if (gap.found && gap.middleMm < bestMm_ - 1e-9) {
      bestMm_ = gap.middleMm;
      found_ = true;
      least_.instant = instantOf(phase, part);
      bestPhase_ = phase;
      bestPart_ = part;
      least_.onA_A = swapped_ ? motion.X_AB * gap.onB_A : gap.onA_A;
      least_.onB_A = swapped_ ? motion.X_AB * gap.onA_A : gap.onB_A;
    }
    return gap;
  }

  /// Gap at one instant if below what is needed, else something at or above it.
  double gapAt(std::size_t phase, double part) {
    const auto [known, isNew] = gaps_.try_emplace({phase, part}, 0.0);
    if (isNew) known->second = ask(phase, part, 0, 0, std::max(neededMm_, 2 * kTouchMm)).middleMm;
    return known->second;
  }

  /// Phases' ends first: least gaps often stand there, and of equal ones the first counts.
  void seed() {
    for (std::size_t phase = 0; phase < phases_.size(); ++phase) {
      ask(phase, 0, 0, 0, interest());
      if (!isConstant(phase)) ask(phase, 1, 0, 0, interest());
    }
  }

  std::vector<Cell> firstCells() const {
    std::vector<Cell> cells;
    for (std::size_t phase = 0; phase < phases_.size(); ++phase) {
      const int pieces = isConstant(phase) ? 1 : kFirstPieces;
      for (int i = 0; i < pieces; ++i) {
        cells.push_back({phase, static_cast<double>(i) / pieces, static_cast<double>(i + 1) / pieces, 0, {}});
      }
    }
    return cells;
  }

  void look(Cell cell) {
    if (nodeTests_ > question_.budget || monitor_.cancelled()) {
      if (!cell.standing) cell.standing = cell.lowerMm >= neededMm_ ? Standing::clear : Standing::unproven;
      done_.push_back(cell);
      return;
    }
    if (isConstant(cell.phase)) return lookOnce(cell);
    IntervalGap gap = ask(cell.phase, cell.middle(), cell.width() / 2, std::max(neededMm_, bracketGoal()), interest());
    if (gap.lowerMm < neededMm_ && gap.found && gap.middleMm > kTouchMm && gap.middleMm < neededMm_) {
      // Not clear. Is it at least proven not to touch, and does the bracket allow to leave it at that?
      const IntervalGap again = ask(cell.phase, cell.middle(), cell.width() / 2,
                                    std::max(kTouchMm, bracketGoal()), gap.middleMm + kTouchMm);
      gap.lowerMm = std::max(gap.lowerMm, again.lowerMm);
    }
    cell.lowerMm = std::max(cell.lowerMm, gap.lowerMm);
    if (!cell.standing) cell.standing = judge(cell, gap);
    const bool bracketed = cell.standing == Standing::clash || cell.lowerMm >= bracketGoal();
    if (cell.standing && (bracketed || widthOf(cell) <= kLeastWidth)) {
      done_.push_back(cell);
    } else {
      split(cell);
    }
  }

  void lookOnce(Cell cell) {
    const IntervalGap gap = ask(cell.phase, 0, 0, 0, interest());
    cell.lowerMm = std::max(0.0, gap.middleMm - 1e-9);
    cell.standing = gap.middleMm >= neededMm_  ? Standing::clear
                    : gap.middleMm <= kTouchMm ? Standing::clash
                                               : Standing::tight;
    done_.push_back(cell);
  }

  std::optional<Standing> judge(const Cell& cell, const IntervalGap& gap) {
    if (cell.lowerMm >= neededMm_) return Standing::clear;
    const bool atEnds = widthOf(cell) <= kEndsWithin;
    if (gap.middleMm <= kTouchMm) {
      if (atEnds) return Standing::clash;
      const bool through = cell.width() <= kClashPiece && gapAt(cell.phase, cell.low) <= kTouchMm &&
                           gapAt(cell.phase, cell.high) <= kTouchMm;
      return through ? std::optional(Standing::clash) : std::nullopt;
    }
    if (cell.lowerMm < kTouchMm) {
      if (!atEnds) return std::nullopt;
      const bool rim = gapAt(cell.phase, cell.low) <= kTouchMm || gapAt(cell.phase, cell.high) <= kTouchMm;
      return rim || widthOf(cell) <= kLeastWidth ? std::optional(Standing::clash) : std::nullopt;
    }
    if (gap.found && gap.upperMm < neededMm_) return Standing::tight;
    if (!atEnds) return std::nullopt;
    const bool rim = gap.middleMm < neededMm_ || gapAt(cell.phase, cell.low) < neededMm_ ||
                     gapAt(cell.phase, cell.high) < neededMm_;
    return rim || widthOf(cell) <= kLeastWidth ? std::optional(Standing::tight) : std::nullopt;
  }

  void split(const Cell& cell) {
    next_.push_back({cell.phase, cell.low, cell.middle(), cell.lowerMm, cell.standing});
    next_.push_back({cell.phase, cell.middle(), cell.high, cell.lowerMm, cell.standing});
  }

  /// The bracket leaves the place of a flat minimum open; golden section closes in on it.
  void polish() {
    if (!found_ || bestMm_ <= 0 || question_.mattersBelowMm <= 0) return;
    if (isConstant(bestPhase_) || bestPart_ <= 0 || bestPart_ >= 1) return;
    const std::size_t phase = bestPhase_;
    const double ratio = (std::sqrt(5.0) - 1) / 2;
    double low = std::max(0.0, bestPart_ - kPolishReach), high = std::min(1.0, bestPart_ + kPolishReach);
    const auto gapOf = [&](double at) { return ask(phase, at, 0, 0, bestMm_ + 1.0).middleMm; };
    double left = high - ratio * (high - low), right = low + ratio * (high - low);
    double atLeft = gapOf(left), atRight = gapOf(right);
    for (int i = 0; i < kPolishRounds; ++i) {
      if (atLeft <= atRight) {
        high = right, right = left, atRight = atLeft;
        left = high - ratio * (high - low);
        atLeft = gapOf(left);
      } else {
        low = left, left = right, atLeft = atRight;
        right = low + ratio * (high - low);
        atRight = gapOf(right);
      }
    }
  }
  static constexpr double kPolishReach = 0.02;  ///< Of a phase.

  Track finish() {
    Track track;
    track.nodeTests = nodeTests_;
    track.cancelled = monitor_.cancelled();
    std::sort(done_.begin(), done_.end(),
              [](const Cell& a, const Cell& b) { return a.phase != b.phase ? a.phase < b.phase : a.low < b.low; });
    double lowerMm = std::numeric_limits<double>::infinity();
    for (const Cell& cell : done_) {
      const double from = instantOf(cell.phase, cell.low), to = instantOf(cell.phase, cell.high);
      lowerMm = std::min(lowerMm, cell.lowerMm);
      if (!track.pieces.empty() && track.pieces.back().standing == *cell.standing && track.pieces.back().to >= from) {
        track.pieces.back().to = to;
      } else {
        track.pieces.push_back({from, to, *cell.standing});
      }
    }
    track.least = least_;
    const bool met = found_ && bestMm_ <= kTouchMm;
    const bool told = std::any_of(track.pieces.begin(), track.pieces.end(),
                                  [](const TrackPiece& piece) { return piece.standing == Standing::clash; });
    // A touch that was seen at one instant is never passed over, whatever the intervals say.
    if (met && !told) track.pieces.push_back({least_.instant, least_.instant, Standing::clash});
    if (found_) track.least.upperMm = std::max(0.0, bestMm_);
    track.least.lowerMm = found_ ? std::min(lowerMm, bestMm_) : lowerMm;
    if (met) track.least.lowerMm = 0;
    return track;
  }

  /// B's points are what the bounds let move: the roles are swapped if A reaches less far from the axes.
  bool swapped_;
  const BoundingTree& treeA_;
  const BoundingTree& treeB_;
  const std::vector<Phase>& phases_;
  TrackQuestion question_;
  const WorkMonitor& monitor_;
  double neededMm_;
  double bracketMm_;

  std::vector<Cell> done_;
  std::vector<Cell> next_;
  std::map<std::pair<std::size_t, double>, double> gaps_;
  double bestMm_ = std::numeric_limits<double>::infinity();
  bool found_ = false;
  std::size_t bestPhase_ = 0;
  double bestPart_ = 0;
  LeastGap least_;
  std::uint64_t nodeTests_ = 0;
};

}  // namespace

Track followTrack(const BoundingTree& treeA, const BoundingTree& treeB,
                  const std::vector<Phase>& phases, const TrackQuestion& question, const WorkMonitor& monitor) {
  return Follower(treeA, treeB, phases, question, monitor).run();
}

}  // namespace swingroom
