#include "core/sweep/interval_gap.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/sweep/separation.h"

namespace swingroom {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;
using Node = BoundingTree::Node;

constexpr int kMostSplits = 8;
/// Boxes smaller than this share of what motion takes off their gap are left to shorter intervals.
constexpr double kTimeFirst = 0.2;
constexpr double kRingsOffMm = 1e-8;  ///< Lines that count as one may be off each other by less.
constexpr double kInfinite = std::numeric_limits<double>::infinity();

float roundedDown(double value) {
  const auto nearest = static_cast<float>(value);
  return nearest <= value ? nearest : std::nextafter(nearest, -1.0f);
}

/// How far pairs have to be proven, given what has been found at the middle.
struct Goals {
  double settleMm = 0;  ///< From here on a pair is done with, for the halves too.
  double workMm = 0;    ///< From here on this interval needs no more of it.
};

Goals goalsOf(const FrontQuestion& question, double middleMm) {
  const double bestMm = std::min(question.bestMm, middleMm);
  double bracketMm = 0;
  if (question.mattersBelowMm > 0 && bestMm > 0) {
    bracketMm = bestMm < question.mattersBelowMm ? bestMm - question.bracketMm : question.mattersBelowMm;
  }
  const double settleMm = std::max(question.neededMm, bracketMm);
  return {settleMm, middleMm < question.neededMm ? std::max(question.leastMm, bracketMm) : settleMm};
}

/// A pair of nodes on the way down, margins taken off.
struct Item {
  std::uint32_t a = 0, b = 0;
  double gapMm = 0, lowerMm = 0;
};

class Descent {
 public:
  /// @param left  Null: nothing is kept, and once one pair cannot be proven only the middle is searched.
  Descent(const BoundingTree& treeA, const BoundingTree& treeB, const MotionPiece& piece,
          const FrontQuestion& question, Front* left)
      : treeA_(treeA),
        treeB_(treeB),
        lanes_(piece, treeB.root()),
        together_(piece.together),
        R_AB_(piece.middle.X_AB.linear()),
        p_AB_(piece.middle.X_AB.translation()),
        margin_(1e-9 * (1 + treeA.root().radius + treeB.root().radius + p_AB_.norm() * 1e-3)),
        separation_(piece, lanes_, inA(treeB.root().centre), treeB.root().radius, margin_),
        travel_(separation_.travel()),
        question_(question),
        left_(left),
        nearest_(question.findBelowMm) {
    setGoals();
  }

  IntervalGap run(const Front& front) {
    settled_ = front.settledMm;
    const double settledBefore = settled_;
    if (question_.hint) tryHint(*question_.hint);
    for (std::size_t i = 0; i < front.pairs.size() && !touching(); i += kLanes) {
      const std::size_t count = std::min(kLanes, front.pairs.size() - i);
      take(&front.pairs[i], count);
      while (!stack_.empty() && !touching()) {
        const Item item = stack_.back();
        stack_.pop_back();
        visit(item);
      }
    }
    finish(touching() ? 0 : std::min(settled_, unsettled_), settledBefore);
    if (left_ && !touching()) left_->settledMm = settled_;
    return result_;
  }

 private:
  bool touching() const { return result_.found && nearest_ <= 0; }
  Vector3d inA(const Vector3d& p_B) const { return R_AB_ * p_B + p_AB_; }
  TriangleCorners inA(const TriangleCorners& t) const { return {inA(t[0]), inA(t[1]), inA(t[2])}; }

  /// Nearer points than this are looked for at the middle.
  double sought() const { return nearest_ < question_.enoughMm ? 0 : nearest_ - slack(); }
  double slack() const { return std::min(question_.slackMm, 0.05 * nearest_); }

  void setGoals() { goals_ = goalsOf(question_, result_.found ? nearest_ : kInfinite); }

  LaneGoals laneGoals() const {
    const double soughtMm = sought() + margin_;
    return proving_ ? LaneGoals{goals_.settleMm, goals_.workMm, soughtMm} : LaneGoals{0, kInfinite, soughtMm};
  }

  void tryHint(const TrianglePair& pair) {
    ++result_.nodeTests;
    const TriangleCorners onB = inA(treeB_.triangles()[pair.b]);
    note(closestBetweenTriangles(treeA_.triangles()[pair.a], onB), pair);
  }

  void note(const ClosestPoints& closest, const TrianglePair& pair) {
    if (closest.distanceMm >= nearest_) return;
    nearest_ = closest.distanceMm;
    result_.found = true;
    result_.onA_A = closest.onA;
    result_.onB_A = closest.onB;
    result_.nearest = pair;
    setGoals();
  }

  template <typename Pair>
  void take(const Pair* pairs, std::size_t count) {
    std::array<const Node*, kLanes> a, b;
    for (std::size_t lane = 0; lane < kLanes; ++lane) {
      const Pair& pair = pairs[std::min(lane, count - 1)];
      a[lane] = &treeA_.nodes()[pair.a];
      b[lane] = &treeB_.nodes()[pair.b];
    }
    LaneBounds bounds;
    compareBoxes(lanes_, a, b, laneGoals(), bounds);
    result_.nodeTests += count;
    std::array<Item, kLanes> items;
    for (std::size_t lane = 0; lane < count; ++lane) {
      items[lane] = {pairs[lane].a, pairs[lane].b, bounds.gapMm[lane] - margin_,
                     std::max(0.0, bounds.lowerMm[lane] - margin_)};
      if (question_.revolvedA && items[lane].lowerMm < goals_.settleMm) useRings(items[lane]);
    }
    // The nearest is looked at first.
    std::sort(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(count),
              [](const Item& x, const Item& y) { return x.gapMm > y.gapMm; });
    for (std::size_t lane = 0; lane < count; ++lane) {
      if (!dismiss(items[lane])) stack_.push_back(items[lane]);
    }
  }

  void useRings(Item& item) const {
    const double gapMm = ringGapMm(question_.revolvedA->ofNode(item.a), question_.revolvedB->ofNode(item.b));
    item.lowerMm = std::max(item.lowerMm, gapMm - kRingsOffMm);
    item.gapMm = std::max(item.gapMm, gapMm - kRingsOffMm);
  }

  /// Settles a pair, or leaves it for the halves, if no more has to be known of it here.
  bool dismiss(const Item& item) {
    // What is proven as far as asked takes no part in the middle either: it would tell nothing new.
    const bool proven = proving_ && left_ && item.lowerMm >= goals_.workMm;
    if (!proven && item.gapMm < sought()) return false;
    if (proven) unsearched_ = std::min(unsearched_, item.lowerMm);
    if (!proving_) return true;
    if (item.lowerMm >= goals_.settleMm) {
      settled_ = std::min(settled_, item.lowerMm);
      return true;
    }
    if (!left_) return false;
    if (item.lowerMm < goals_.workMm) {
      if (item.gapMm < goals_.workMm) return false;
      const double size = treeA_.nodes()[item.a].radius + treeB_.nodes()[item.b].radius;
      if (item.gapMm - item.lowerMm < kTimeFirst * size) return false;
    }
    leave(item);
    return true;
  }

  void leave(const Item& item) {
    unsettled_ = std::min(unsettled_, item.lowerMm);
    left_->pairs.push_back({item.a, item.b, roundedDown(item.lowerMm)});
  }

  void visit(const Item& item) {
    if (dismiss(item)) return;
    const Node& a = treeA_.nodes()[item.a];
    const Node& b = treeB_.nodes()[item.b];
    if (a.isLeaf() && b.isLeaf()) return compareLeaves(item, a, b);
    // Of two unlike sizes the larger is opened alone.
    const bool openA = !a.isLeaf() && (b.isLeaf() || a.radius >= 0.5 * b.radius);
    const bool openB = !b.isLeaf() && (a.isLeaf() || b.radius >= 0.5 * a.radius);
    std::array<FrontPair, kLanes> children;
    std::size_t count = 0;
    for (std::uint32_t i = 0; i < (openA ? 2u : 1u); ++i) {
      for (std::uint32_t j = 0; j < (openB ? 2u : 1u); ++j) {
        children[count++] = {openA ? a.first + i : item.a, openB ? b.first + j : item.b, 0};
      }
    }
    take(children.data(), count);
  }

  void compareLeaves(const Item& item, const Node& a, const Node& b) {
    const PlacedTriangles placed = placeTriangles(lanes_, treeB_, b);
    double leafLower = kInfinite;
    for (std::uint32_t i = a.first; i < a.first + a.count; ++i) {
      const TriangleCorners& onA = treeA_.triangles()[i];
      LaneBounds bounds;
      compareTriangles(lanes_, onA, placed, laneGoals(), bounds);
      result_.nodeTests += b.count;
      for (std::uint32_t lane = 0; lane < b.count; ++lane) {
        const double apart = bounds.gapMm[lane] - margin_;
        double lower = std::max(item.lowerMm, bounds.lowerMm[lane] - margin_);
        const bool enough = !proving_ || lower >= goals_.workMm;
        if ((apart < sought() && !(enough && left_)) || (!enough && apart < goals_.workMm)) {
          lower = std::max(lower, compare(onA, placedTriangle(placed, lane), {i, b.first + lane}));
        }
        if (!proving_) continue;
        if (left_ && lower >= goals_.workMm) unsearched_ = std::min(unsearched_, lower);
        if (lower < goals_.settleMm && !left_) proving_ = false;
        leafLower = std::min(leafLower, lower);
      }
    }
    if (!proving_) return;
    if (leafLower >= goals_.settleMm) {
      settled_ = std::min(settled_, leafLower);
    } else {
      leave({item.a, item.b, 0, leafLower});
    }
  }

  static TriangleCorners placedTriangle(const PlacedTriangles& placed, std::size_t lane) {
    TriangleCorners t;
    for (std::size_t k = 0; k < 3; ++k) {
      t[k] = {placed.corner[k][0][lane], placed.corner[k][1][lane], placed.corner[k][2][lane]};
    }
    return t;
  }

  /// The nearest points, and how far apart the two are proven over the interval.
  double compare(const TriangleCorners& onA, const TriangleCorners& onB, const TrianglePair& pair) {
    const ClosestPoints closest = closestBetweenTriangles(onA, onB);
    note(closest, pair);
    if (!proving_ || closest.distanceMm <= 0) return 0;
    if (!lanes_.moves) return closest.distanceMm - margin_;
    double lower = separation_.along((closest.onB - closest.onA) / closest.distanceMm, onA, onB, goals_.workMm);
    if (lower < goals_.workMm && closest.distanceMm >= goals_.workMm) {
      lower = std::max(lower, separation_.acrossVelocity(onA, onB, goals_.workMm));
    }
    if (lower < goals_.workMm && closest.distanceMm >= goals_.workMm) {
      lower = std::max(lower, separation_.bySplitting(onA, onB, goals_.workMm, kMostSplits, result_.nodeTests));
    }
    return std::max(0.0, lower);
  }

  void finish(double provenMm, double settledBefore) {
    result_.middleMm = nearest_;
    // Not proven as far as asked; what the whole part can travel still holds.
    const Node& root = treeB_.root();
    const bool searched = nearest_ >= question_.enoughMm;
    const double middleMm =
        searched ? std::min({nearest_ - slack(), settledBefore, unsearched_}) : 0;
    const double byTravel = middleMm - travel_.travelMm(inA(root.centre), root.radius) - margin_;
    result_.lowerMm = std::max({0.0, byTravel, proving_ ? provenMm : 0.0});
    if (result_.found) result_.upperMm = nearest_ + upperGrowth();
  }

  /// How far the found points can get from each other over the interval.
  double upperGrowth() const {
    if (!lanes_.moves) return margin_;
    const double bendMm = travel_.bendMm(result_.onB_A, 0) + margin_;
    if (!together_) {
      double wayMm = 0;
      for (const LaneMotion::Field& field : lanes_.fields) {
        const Eigen::Map<const Vector3d> linear(field.linear), angular(field.angular);
        wayMm += travel_.halfWidth() * (linear + angular.cross(result_.onB_A)).norm();
      }
      return wayMm + bendMm;
    }
    const Vector3d apart = result_.onB_A - result_.onA_A;
    const Vector3d way = travel_.halfWidth() * travel_.velocityAt(result_.onB_A);
    const double even = std::max((apart + way).norm(), (apart - way).norm());
    return even - apart.norm() + bendMm;
  }

  const BoundingTree& treeA_;
  const BoundingTree& treeB_;
  LaneMotion lanes_;
  bool together_;
  Matrix3d R_AB_;
  Vector3d p_AB_;
  double margin_;
  Separation separation_;
  const TravelBounds& travel_;
  const FrontQuestion& question_;
  Front* left_;
  Goals goals_;

  std::vector<Item> stack_;
  double nearest_;
  double settled_ = kInfinite;    ///< Least of what is done with.
  double unsettled_ = kInfinite;  ///< Least of what is left.
  double unsearched_ = kInfinite; ///< Least of what was not searched for the middle.
  bool proving_ = true;
  IntervalGap result_;
};

IntervalGap nothingThere(double findBelowMm) {
  IntervalGap gap;
  gap.lowerMm = gap.upperMm = kInfinite;
  gap.middleMm = findBelowMm;
  return gap;
}

}  // namespace

double wholeTravelMm(const BoundingTree& tree, const MotionAtInstant& motion, bool isA) {
  if (tree.empty()) return 0;
  const Vector3d centre_A = isA ? tree.root().centre : Vector3d(motion.X_AB * tree.root().centre);
  return TravelBounds(motion, 1).travelMm(centre_A, tree.root().radius);
}

bool trianglesMeet(const BoundingTree& treeA, const BoundingTree& treeB, const Pose& X_AB, const TrianglePair& pair) {
  TriangleCorners onB = treeB.triangles()[pair.b];
  for (Vector3d& corner : onB) corner = X_AB * corner;
  return closestBetweenTriangles(treeA.triangles()[pair.a], onB).distanceMm <= 0;
}

double wholeBoxesApart(const BoundingTree& treeA, const BoundingTree& treeB, const MotionPiece& piece) {
  if (treeA.empty() || treeB.empty()) return kInfinite;
  std::array<const Node*, kLanes> a, b;
  a.fill(&treeA.root());
  b.fill(&treeB.root());
  LaneBounds bounds;
  compareBoxes(LaneMotion(piece, treeB.root()), a, b, {}, bounds);
  return bounds.lowerMm[0] - 1e-9 * (1 + a[0]->radius + b[0]->radius + bounds.gapMm[0]);
}

Front wholeFront() { return {{{0, 0, 0}}, kInfinite}; }

double leastOf(const Front& front) {
  double least = front.settledMm;
  for (const FrontPair& pair : front.pairs) least = std::min(least, static_cast<double>(pair.lowerMm));
  return least;
}

IntervalGap intervalGap(const BoundingTree& treeA, const BoundingTree& treeB, const MotionAtInstant& motion,
                        double halfWidth, const IntervalQuestion& question) {
  if (treeA.empty() || treeB.empty()) return nothingThere(question.findBelowMm);
  FrontQuestion asked;
  asked.findBelowMm = question.findBelowMm;
  asked.neededMm = asked.leastMm = question.proveMm;
  const MotionPiece piece{motion, halfWidth, true};
  return Descent(treeA, treeB, piece, asked, nullptr).run(wholeFront());
}

IntervalGap advanceFront(const BoundingTree& treeA, const BoundingTree& treeB, const MotionPiece& piece,
                         const FrontQuestion& question, const Front& front, Front& left) {
  left.pairs.clear();
  return Descent(treeA, treeB, piece, question, &left).run(front);
}

IntervalGap gapWithin(const BoundingTree& treeA, const BoundingTree& treeB, const MotionAtInstant& motion,
                      const FrontQuestion& question, const Front& front) {
  if (treeA.empty() || treeB.empty()) return nothingThere(question.findBelowMm);
  FrontQuestion asked;
  asked.findBelowMm = question.findBelowMm;
  asked.slackMm = question.slackMm;
  asked.hint = question.hint;
  const MotionPiece piece{motion, 0, true};
  return Descent(treeA, treeB, piece, asked, nullptr).run(front);
}

}  // namespace swingroom
