#include "core/sweep/interval_gap.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace swingroom {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;
using Node = BoundingTree::Node;

constexpr int kMostSplits = 8;

/// A direction, unit and fixed in A, along which two boxes are at least `gapMm` apart at the middle.
struct Separation {
  double gapMm = 0;
  Vector3d direction = Vector3d::Zero();
};

class Descent {
 public:
  Descent(const BoundingTree& treeA, const BoundingTree& treeB, const MotionAtInstant& motion, double halfWidth,
          const IntervalQuestion& question)
      : treeA_(treeA),
        treeB_(treeB),
        R_AB_(motion.X_AB.linear()),
        p_AB_(motion.X_AB.translation()),
        absR_(R_AB_.cwiseAbs()),
        travel_(motion, halfWidth),
        moves_(!motion.axes.empty() && halfWidth > 0),
        question_(question),
        nearest_(question.findBelowMm) {
    margin_ = 1e-9 * (1 + treeA.root().radius + treeB.root().radius + p_AB_.norm() * 1e-3);
  }

  IntervalGap run() {
    push(0, 0);
    while (!stack_.empty()) {
      const Entry entry = stack_.back();
      stack_.pop_back();
      visit(entry);
      if (result_.found && nearest_ <= 0) break;
    }
    finish();
    return result_;
  }

 private:
  struct Entry {
    std::uint32_t a, b;
    Separation separation;
  };

  Vector3d inA(const Vector3d& p_B) const { return R_AB_ * p_B + p_AB_; }

  Separation separate(const Node& a, const Node& b) const {
    const Vector3d c = inA(b.centre) - a.centre;
    const Vector3d gapA = (c.cwiseAbs() - a.half - absR_ * b.half).cwiseMax(0.0);
    const Vector3d c_B = R_AB_.transpose() * c;
    const Vector3d gapB = (c_B.cwiseAbs() - b.half - absR_.transpose() * a.half).cwiseMax(0.0);
    const double squaredA = gapA.squaredNorm(), squaredB = gapB.squaredNorm();
    if (squaredA >= squaredB) {
      if (squaredA == 0) return {};
      const double gap = std::sqrt(squaredA);
      return {gap, (gapA.array() * c.array().sign()).matrix() / gap};
    }
    const double gap = std::sqrt(squaredB);
    return {gap, R_AB_ * ((gapB.array() * c_B.array().sign()).matrix() / gap)};
  }

  /// The boxes' gap over the whole interval is at least this.
  double lowerOf(const Separation& separation, const Node& b) const {
    if (!moves_) return separation.gapMm;
    const Vector3d centre = inA(b.centre);
    const auto projection = travel_.projectOn(separation.direction);
    const double atCentre = projection.along + centre.dot(projection.across);
    const double spread = (R_AB_.transpose() * projection.across).cwiseAbs().dot(b.half);
    return separation.gapMm - travel_.halfWidth() * (std::abs(atCentre) + spread) -
           travel_.bendMm(centre, b.radius, separation.direction);
  }

  /// The same along single axes of the boxes: faces that slide over each other do not move along theirs.
  double lowerAlongAxes(const Node& a, const Node& b) const {
    const Vector3d c = inA(b.centre) - a.centre;
    const Vector3d gapA = c.cwiseAbs() - a.half - absR_ * b.half;
    const Vector3d c_B = R_AB_.transpose() * c;
    const Vector3d gapB = c_B.cwiseAbs() - b.half - absR_.transpose() * a.half;
    double lower = 0;
    for (int axis = 0; axis < 3; ++axis) {
      if (gapA[axis] >= question_.proveMm) lower = std::max(lower, lowerOf({gapA[axis], Vector3d::Unit(axis)}, b));
      if (gapB[axis] >= question_.proveMm) lower = std::max(lower, lowerOf({gapB[axis], R_AB_.col(axis)}, b));
    }
    return lower;
  }

  void push(std::uint32_t a, std::uint32_t b) { push({a, b, separate(treeA_.nodes()[a], treeB_.nodes()[b])}); }
  void push(const Entry& entry) {
    ++result_.nodeTests;
    stack_.push_back(entry);
  }

  void visit(const Entry& entry) {
    const Node& a = treeA_.nodes()[entry.a];
    const Node& b = treeB_.nodes()[entry.b];
    const double gap = entry.separation.gapMm - margin_;
    if (gap >= nearest_) {  // Of no interest for the middle.
      if (!proving_) return;
      if (gap >= question_.proveMm) {
        double lower = lowerOf(entry.separation, b) - margin_;
        if (lower < question_.proveMm) lower = std::max(lower, lowerAlongAxes(a, b) - margin_);
        if (lower >= question_.proveMm) {
          lower_ = std::min(lower_, lower);
          return;
        }
      }
    }
    if (a.isLeaf() && b.isLeaf()) {
      compareTriangles(a, b);
    } else if (b.isLeaf() || (!a.isLeaf() && a.radius >= b.radius)) {
      pushTwo({a.first, entry.b, {}}, {a.first + 1, entry.b, {}});
    } else {
      pushTwo({entry.a, b.first, {}}, {entry.a, b.first + 1, {}});
    }
  }

  void pushTwo(Entry first, Entry second) {
    first.separation = separate(treeA_.nodes()[first.a], treeB_.nodes()[first.b]);
    second.separation = separate(treeA_.nodes()[second.a], treeB_.nodes()[second.b]);
    if (first.separation.gapMm < second.separation.gapMm) std::swap(first, second);
    push(first);
    push(second);  // The nearer is looked at first.
  }

  void compareTriangles(const Node& a, const Node& b) {
    for (std::uint32_t j = b.first; j < b.first + b.count; ++j) {
      const TriangleCorners& inB = treeB_.triangles()[j];
      const TriangleCorners placed = {inA(inB[0]), inA(inB[1]), inA(inB[2])};
      for (std::uint32_t i = a.first; i < a.first + a.count; ++i) {
        ++result_.nodeTests;
        compare(treeA_.triangles()[i], placed, a, b);
      }
    }
  }

  void compare(const TriangleCorners& onA, const TriangleCorners& onB, const Node& a, const Node& b) {
    const ClosestPoints closest = closestBetweenTriangles(onA, onB);
    if (closest.distanceMm < nearest_) {
      nearest_ = closest.distanceMm;
      result_.found = true;
      result_.onA_A = closest.onA;
      result_.onB_A = closest.onB;
    }
    if (!proving_) return;
    double lower = provenLower(closest, onA, onB);
    if (lower < question_.proveMm && moves_) lower = std::max(lower, lowerAlongAxes(a, b) - margin_);
    if (lower < question_.proveMm && moves_ && closest.distanceMm >= question_.proveMm) {
      lower = std::max(lower, lowerBySplitting(onA, onB, kMostSplits));
    }
    lower_ = std::min(lower_, lower);
    if (lower < question_.proveMm) proving_ = false;
  }

  /// The far end of a long triangle may move much along a direction in which the near end keeps its distance:
  /// each half has a direction of its own. 0 as soon as one piece cannot be proven.
  double lowerBySplitting(const TriangleCorners& onA, const TriangleCorners& onB, int splitsLeft) {
    std::size_t longest = 0;
    const auto length = [&](std::size_t e) { return (onB[(e + 1) % 3] - onB[e]).norm(); };
    for (std::size_t e = 1; e < 3; ++e) {
      if (length(e) > length(longest)) longest = e;
    }
    if (splitsLeft == 0 || length(longest) < question_.proveMm) return 0;
    const Vector3d& p = onB[longest];
    const Vector3d& q = onB[(longest + 1) % 3];
    const Vector3d& r = onB[(longest + 2) % 3];
    const Vector3d middle = 0.5 * (p + q);
    double lower = std::numeric_limits<double>::infinity();
    for (const TriangleCorners& half : {TriangleCorners{p, middle, r}, TriangleCorners{middle, q, r}}) {
      ++result_.nodeTests;
      double ofHalf = provenLower(closestBetweenTriangles(onA, half), onA, half);
      if (ofHalf < question_.proveMm) ofHalf = lowerBySplitting(onA, half, splitsLeft - 1);
      if (ofHalf < question_.proveMm) return 0;
      lower = std::min(lower, ofHalf);
    }
    return lower;
  }

  /// The triangles' gap over the whole interval is at least this.
  double provenLower(const ClosestPoints& closest, const TriangleCorners& onA, const TriangleCorners& onB) const {
    if (closest.distanceMm <= 0) return 0;
    if (!moves_) return closest.distanceMm - margin_;
    double lower = lowerAlong((closest.onB - closest.onA) / closest.distanceMm, onA, onB);
    // Along a face's normal the separation may be less at the middle, and keep better.
    if (lower < question_.proveMm) lower = std::max(lower, lowerAlong(normalOf(onA), onA, onB));
    if (lower < question_.proveMm) lower = std::max(lower, lowerAlong(normalOf(onB), onA, onB));
    return lower;
  }

  static Vector3d normalOf(const TriangleCorners& t) { return (t[1] - t[0]).cross(t[2] - t[0]).normalized(); }

  /// Separation of the triangles along unit `direction` or against it, less what the motion can take off it.
  double lowerAlong(Vector3d direction, const TriangleCorners& onA, const TriangleCorners& onB) const {
    if (direction.dot(onB[0] - onA[0]) < 0) direction = -direction;
    const double endA = std::max({direction.dot(onA[0]), direction.dot(onA[1]), direction.dot(onA[2])});
    const double startB = std::min({direction.dot(onB[0]), direction.dot(onB[1]), direction.dot(onB[2])});
    if (startB - endA < question_.proveMm) return 0;
    const auto projection = travel_.projectOn(direction);
    double speed = 0;
    for (const Vector3d& corner : onB) {
      speed = std::max(speed, std::abs(projection.along + corner.dot(projection.across)));
    }
    const Vector3d centre = (onB[0] + onB[1] + onB[2]) / 3;
    const double radius = std::sqrt(std::max(
        {(onB[0] - centre).squaredNorm(), (onB[1] - centre).squaredNorm(), (onB[2] - centre).squaredNorm()}));
    return startB - endA - travel_.halfWidth() * speed - travel_.bendMm(centre, radius, direction) - margin_;
  }

  void finish() {
    result_.middleMm = nearest_;
    if (proving_) {
      result_.lowerMm = std::max(0.0, lower_);
    } else {
      // Not proven as far as asked; what the whole part can travel still holds.
      const Node& root = treeB_.root();
      result_.lowerMm = std::max(0.0, nearest_ - travel_.travelMm(inA(root.centre), root.radius) - margin_);
    }
    if (result_.found) result_.upperMm = nearest_ + upperGrowth();
  }

  /// How far the found points can get from each other over the interval.
  double upperGrowth() const {
    if (!moves_) return margin_;
    const Vector3d apart = result_.onB_A - result_.onA_A;
    const Vector3d way = travel_.halfWidth() * travel_.velocityAt(result_.onB_A);
    const double even = std::max((apart + way).norm(), (apart - way).norm());
    return even - apart.norm() + travel_.bendMm(result_.onB_A, 0) + margin_;
  }

  const BoundingTree& treeA_;
  const BoundingTree& treeB_;
  Matrix3d R_AB_;
  Vector3d p_AB_;
  Matrix3d absR_;
  TravelBounds travel_;
  bool moves_;
  IntervalQuestion question_;
  double margin_ = 0;

  std::vector<Entry> stack_;
  double nearest_;
  double lower_ = std::numeric_limits<double>::infinity();
  bool proving_ = true;
  IntervalGap result_;
};

}  // namespace

IntervalGap intervalGap(const BoundingTree& treeA, const BoundingTree& treeB, const MotionAtInstant& motion,
                        double halfWidth, const IntervalQuestion& question) {
  if (treeA.empty() || treeB.empty()) {
    const double infinite = std::numeric_limits<double>::infinity();
    return {infinite, question.findBelowMm, false, Vector3d::Zero(), Vector3d::Zero(), infinite, 0};
  }
  return Descent(treeA, treeB, motion, halfWidth, question).run();
}

}  // namespace swingroom
