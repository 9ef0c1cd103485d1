#include "core/sweep/track.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <list>
#include <map>
#include <memory>

#include "core/sweep/interval_gap.h"

namespace swingroom {
namespace {

constexpr double kTouchMm = 1e-6;        ///< Nearer than this is a touch.
constexpr double kEndsWithin = 2.5e-5;   ///< Of the sequence: a stretch's ends are looked for this closely.
constexpr double kLeastWidth = 1e-9;     ///< Of the sequence: an undecided touch is given up as one.
constexpr double kClashPiece = 1.0 / 512;  ///< Of a phase: longest piece taken as clash from three instants.
constexpr double kBracketShare = 0.98;   ///< Of the resolution, so that printed digits keep it too.
constexpr double kSameMm = 1e-9;         ///< Of equal gaps the first counts.
constexpr int kPolishRounds = 12;
constexpr int kGoldenRounds = 40;

struct Cell {
  std::size_t phase = 0;
  double low = 0, high = 1;  ///< Of the phase.
  double lowerMm = 0;        ///< Proven for it, from itself or its parent.
  std::optional<Standing> standing;
  std::shared_ptr<const Front> front;  ///< What its parent, or itself, has left to prove.
  std::optional<TrianglePair> nearest;

  double middle() const { return 0.5 * (low + high); }
  double width() const { return high - low; }
};

/// How fast, at most, points of one surface move against the other part in the middle of the phases.
double reachOf(const BoundingTree& tree, const std::vector<Phase>& phases, bool isA) {
  double speed = 0;
  for (const Phase& phase : phases) {
    if (!phase.motion->isConstant()) speed += wholeTravelMm(tree, phase.motion->at(0.5), isA);
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
    std::vector<Cell> level = firstCells();
    seed(level);
    while (!level.empty() && !monitor_.cancelled()) {
      next_.clear();
      for (Cell& cell : level) look(cell);
      level.swap(next_);
    }
    polish();
    tellExactly();
    return finish();
  }

 private:
  double instantOf(std::size_t phase, double part) const {
    const Phase& of = phases_[phase];
    return part >= 1 ? of.to : of.from + part * (of.to - of.from);
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

  /// Nearer by less than this makes no difference to the bracket.
  double slackMm() const { return 0.05 * bracketMm_; }

  MotionAtInstant motionAt(std::size_t phase, double part) const {
    const MotionAtInstant motion = phases_[phase].motion->at(part);
    return swapped_ ? seenFromB(motion) : motion;
  }

  /// Keeps count, and the least gap so far.
  void note(const IntervalGap& gap, std::size_t phase, double part) {
    nodeTests_ += gap.nodeTests;
    if (!gap.found || gap.middleMm >= bestMm_ - kSameMm) return;
    bestMm_ = gap.middleMm;
    found_ = true;
    bestPhase_ = phase;
    bestPart_ = part;
    bestPair_ = gap.nearest;
    least_.instant = instantOf(phase, part);
    least_.onA_A = gap.onA_A;
    least_.onB_A = gap.onB_A;
    if (!swapped_) return;
    const Pose X_AB = phases_[phase].motion->at(part).X_AB;
    least_.onA_A = X_AB * gap.onB_A;
    least_.onB_A = X_AB * gap.onA_A;
  }

  IntervalGap askAt(std::size_t phase, double part, double findBelowMm, const Front& front,
                    const std::optional<TrianglePair>& hint) {
    FrontQuestion question;
    question.findBelowMm = findBelowMm;
    question.slackMm = slackMm();
    question.hint = hint;
    const IntervalGap gap = gapWithin(treeA_, treeB_, motionAt(phase, part), question, front);
    note(gap, phase, part);
    return gap;
  }

  /// Gap at an instant of the cell if below what is needed, else something at or above it.
  double gapAt(const Cell& cell, double part) {
    const auto [known, isNew] = gaps_.try_emplace({cell.phase, part}, 0.0);
    if (isNew) {
      known->second =
          askAt(cell.phase, part, std::max(neededMm_, 2 * kTouchMm), *cell.front, cell.nearest).middleMm;
    }
    return known->second;
  }

  /// Phases in which the whole parts stay far apart are done with here.
  std::vector<Cell> firstCells() {
    std::vector<Cell> cells;
    const auto whole = std::make_shared<const Front>(wholeFront());
    for (std::size_t phase = 0; phase < phases_.size(); ++phase) {
      Cell cell{phase, 0, 1, 0, {}, whole, {}};
      ++nodeTests_;
      cell.lowerMm = std::max(0.0, wholeBoxesApart(treeA_, treeB_, {motionAt(phase, 0.5), 0.5}));
      if (cell.lowerMm >= std::max(neededMm_, bracketGoal())) {
        cell.standing = Standing::clear;
        done_.push_back(cell);
      } else {
        cells.push_back(cell);
      }
    }
    return cells;
  }

  /// Phases' ends first: least gaps often stand there, and of equal ones the first counts. No pose is
  /// asked about twice. Phases that stand still are done with here.
  void seed(std::vector<Cell>& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      Cell& cell = cells[i];
      cell.nearest = bestPair();
      if (isConstant(cell.phase)) {
        look(cell);
        continue;
      }
      if (i == 0 || !goesOn(cells[i - 1].phase, cell.phase)) {
        askAt(cell.phase, 0, interest(), *cell.front, bestPair());
      }
      const bool isAskedNext = i + 1 < cells.size() && isConstant(cells[i + 1].phase) &&
                               goesOn(cell.phase, cells[i + 1].phase);
      if (!isAskedNext) askAt(cell.phase, 1, interest(), *cell.front, bestPair());
      cell.nearest = bestPair();
    }
    std::erase_if(cells, [&](const Cell& cell) { return isConstant(cell.phase); });
  }
  /// Whether the one starts where the other, earlier one, ends.
  bool goesOn(std::size_t earlier, std::size_t later) const {
    const double end = isConstant(earlier) ? 0 : 1;
    return phases_[earlier].motion->at(end).X_AB.matrix() == phases_[later].motion->at(0).X_AB.matrix();
  }
  std::optional<TrianglePair> bestPair() const {
    return found_ ? std::optional(bestPair_) : std::nullopt;
  }

  void look(Cell& cell) {
    if (nodeTests_ > question_.budget || monitor_.cancelled()) {
      if (!cell.standing) cell.standing = cell.lowerMm >= neededMm_ ? Standing::clear : Standing::unproven;
      done_.push_back(cell);
      return;
    }
    if (isConstant(cell.phase)) return lookOnce(cell);
    if (!found_ || bestMm_ > 0 || !stillMeets(cell)) return lookClosely(cell);
    IntervalGap gap;
    gap.found = true;
    conclude(cell, gap);
  }

  /// What crossed in a clash goes on to cross for a while.
  bool stillMeets(const Cell& cell) {
    if (!cell.nearest) return false;
    ++nodeTests_;
    return trianglesMeet(treeA_, treeB_, motionAt(cell.phase, cell.middle()).X_AB, *cell.nearest);
  }

  void lookClosely(Cell& cell) {
    FrontQuestion question;
    question.findBelowMm = interest();
    question.leastMm = kTouchMm;
    // What has a standing already is looked at for the bracket alone.
    question.neededMm = cell.standing ? 0 : neededMm_;
    if (bracketing()) question.mattersBelowMm = question_.mattersBelowMm;
    question.bracketMm = bracketMm_;
    question.bestMm = found_ ? bestMm_ : std::numeric_limits<double>::infinity();
    question.slackMm = slackMm();
    question.hint = cell.nearest;
    // The bracket holds here already: all that is open is the standing.
    if (cell.lowerMm >= std::max(kTouchMm, bracketGoal())) question.enoughMm = neededMm_;
    useRings(question, cell.phase);
    auto left = std::make_shared<Front>();
    const IntervalGap gap = advanceFront(treeA_, treeB_, {motionAt(cell.phase, cell.middle()), cell.width() / 2}, question,
                                         *cell.front, *left);
    note(gap, cell.phase, cell.middle());
    if (gap.found) cell.nearest = gap.nearest;
    if (gap.middleMm > 0) cell.front = std::move(left);
    conclude(cell, gap);
  }

  void conclude(Cell& cell, const IntervalGap& gap) {
    cell.lowerMm = std::max(cell.lowerMm, gap.lowerMm);
    if (!cell.standing) cell.standing = judge(cell, gap);
    const bool bracketed = cell.standing == Standing::clash || cell.lowerMm >= bracketGoal();
    if (cell.standing && (bracketed || widthOf(cell) <= kLeastWidth)) {
      done_.push_back(cell);
      done_.back().front.reset();
    } else {
      split(cell);
    }
  }

  /// Both surfaces turned round a line, once for all phases that turn about it.
  struct Rings {
    AxisLine onA, onB;
    RevolvedTree ofA, ofB;
  };

  /// Coaxial parts stay where they are as bodies of revolution.
  void useRings(FrontQuestion& question, std::size_t phase) {
    const auto [known, isNew] = ringsOfPhase_.try_emplace(phase, nullptr);
    if (isNew) known->second = ringsFor(motionAt(phase, 0.5));
    if (!known->second) return;
    question.revolvedA = &known->second->ofA;
    question.revolvedB = &known->second->ofB;
  }
  const Rings* ringsFor(const MotionAtInstant& motion) {
    const auto line = turningLine(motion);
    if (!line) return nullptr;
    const Pose X_BA = motion.X_AB.inverse();
    const AxisLine onB{X_BA * line->point, X_BA.linear() * line->direction};
    const auto before = std::find_if(rings_.begin(), rings_.end(), [&](const Rings& rings) {
      return sameLine(rings.onA, *line) && sameLine(rings.onB, onB);
    });
    if (before != rings_.end()) return &*before;
    return &rings_.emplace_back(*line, onB, RevolvedTree(treeA_, *line), RevolvedTree(treeB_, onB));
  }

  void lookOnce(Cell& cell) {
    FrontQuestion question;  // Without slack: this one look has to prove the gap too.
    question.findBelowMm = interest();
    question.hint = cell.nearest;
    const MotionAtInstant motion = motionAt(cell.phase, 0);
    // Often it is back where it stood before. What was found there was asked for no less closely.
    const auto before = std::find_if(stood_.begin(), stood_.end(), [&](const auto& stood) {
      return stood.first.matrix() == motion.X_AB.matrix();
    });
    IntervalGap gap;
    if (before != stood_.end()) {
      gap = before->second;
    } else {
      gap = gapWithin(treeA_, treeB_, motion, question, *cell.front);
      note(gap, cell.phase, 0);
      stood_.emplace_back(motion.X_AB, gap);
    }
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
      const bool through = cell.width() <= kClashPiece && gapAt(cell, cell.low) <= kTouchMm &&
                           gapAt(cell, cell.high) <= kTouchMm;
      return through ? std::optional(Standing::clash) : std::nullopt;
    }
    if (cell.lowerMm < kTouchMm) {
      if (!atEnds) return std::nullopt;
      const bool rim = gapAt(cell, cell.low) <= kTouchMm || gapAt(cell, cell.high) <= kTouchMm;
      return rim || widthOf(cell) <= kLeastWidth ? std::optional(Standing::clash) : std::nullopt;
    }
    if (gap.found && gap.upperMm < neededMm_) return Standing::tight;
    if (!atEnds) return std::nullopt;
    const bool rim = gap.middleMm < neededMm_ || gapAt(cell, cell.low) < neededMm_ ||
                     gapAt(cell, cell.high) < neededMm_;
    return rim || widthOf(cell) <= kLeastWidth ? std::optional(Standing::tight) : std::nullopt;
  }

  void split(const Cell& cell) {
    for (const bool second : {false, true}) {
      Cell half = cell;
      (second ? half.low : half.high) = cell.middle();
      next_.push_back(std::move(half));
    }
  }

  /// The bracket leaves the place of a flat minimum open. Golden section closes in on that of the
  /// nearest two triangles; others that come nearer there take their place.
  void polish() {
    if (!found_ || bestMm_ <= 0 || question_.mattersBelowMm <= 0) return;
    const Front whole = wholeFront();
    for (int round = 0; round < kPolishRounds; ++round) {
      if (isConstant(bestPhase_) || bestPart_ <= 0 || bestPart_ >= 1) return;
      const double before = bestMm_;
      const double part = nearestPart();
      const TrianglePair pair = bestPair_;
      if (gapOfBestPair(part) > before - kPolishedMm) return;
      askAt(bestPhase_, part, bestMm_, whole, pair);
      if (bestMm_ > before - kPolishedMm) return;
    }
  }

  /// The figure that is told is the gap at its instant, without slack.
  void tellExactly() {
    if (!found_ || bestMm_ <= kTouchMm || question_.mattersBelowMm <= 0) return;
    if (isConstant(bestPhase_)) return;  // It was looked at without slack.
    FrontQuestion question;
    question.findBelowMm = bestMm_ + kTouchMm;
    question.hint = bestPair_;
    note(gapWithin(treeA_, treeB_, motionAt(bestPhase_, bestPart_), question, wholeFront()), bestPhase_, bestPart_);
  }

  double gapOfBestPair(double part) const {
    const Pose X_AB = motionAt(bestPhase_, part).X_AB;
    TriangleCorners onB = treeB_.triangles()[bestPair_.b];
    for (Vector3d& corner : onB) corner = X_AB * corner;
    return closestBetweenTriangles(treeA_.triangles()[bestPair_.a], onB).distanceMm;
  }

  /// Where, about the least gap's instant, its two triangles are nearest to each other.
  double nearestPart() const {
    const double ratio = (std::sqrt(5.0) - 1) / 2;
    double low = std::max(0.0, bestPart_ - kPolishReach), high = std::min(1.0, bestPart_ + kPolishReach);
    const auto gapOf = [&](double part) { return gapOfBestPair(part); };
    double left = high - ratio * (high - low), right = low + ratio * (high - low);
    double atLeft = gapOf(left), atRight = gapOf(right);
    for (int i = 0; i < kGoldenRounds; ++i) {
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
    return atLeft <= atRight ? left : right;
  }
  static constexpr double kPolishReach = 0.02;  ///< Of a phase.
  static constexpr double kPolishedMm = 1e-7;

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
  std::vector<std::pair<Pose, IntervalGap>> stood_;  ///< Where phases stand still.
  std::list<Rings> rings_;
  std::map<std::size_t, const Rings*> ringsOfPhase_;  ///< Null: it does not turn about one line.
  double bestMm_ = std::numeric_limits<double>::infinity();
  bool found_ = false;
  std::size_t bestPhase_ = 0;
  double bestPart_ = 0;
  TrianglePair bestPair_;
  LeastGap least_;
  std::uint64_t nodeTests_ = 0;
};

}  // namespace

Track followTrack(const BoundingTree& treeA, const BoundingTree& treeB,
                  const std::vector<Phase>& phases, const TrackQuestion& question, const WorkMonitor& monitor) {
  return Follower(treeA, treeB, phases, question, monitor).run();
}

}  // namespace swingroom
