#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "core/motion/travel.h"
#include "core/sweep/box_lanes.h"
#include "core/sweep/revolved.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// What is asked of one interval of a motion.
struct IntervalQuestion {
  /// Prove, if it is so, that the gap is at least this at every instant of the interval, mm.
  double proveMm = 0;
  /// Find the gap at the middle if it is below this, mm. Farther gaps are not told apart.
  double findBelowMm = 0;
};

/// Two triangles, by their places in their trees.
struct TrianglePair {
  std::uint32_t a = 0, b = 0;
};

/// Gap of two surfaces over an interval of their motion, and at its middle. Lengths in mm.
struct IntervalGap {
  /// The gap is at least this at every instant of the interval. At or above the asked `proveMm` if proven.
  double lowerMm = 0;
  /// Gap at the middle; `findBelowMm` if it is not below that. 0: the surfaces touch or cross.
  double middleMm = 0;
  bool found = false;  ///< `middleMm` is the gap, and the two points are where it is.
  Eigen::Vector3d onA_A = Eigen::Vector3d::Zero();  ///< In A's frame.
  Eigen::Vector3d onB_A = Eigen::Vector3d::Zero();  ///< In A's frame, at the middle.
  TrianglePair nearest;                             ///< If found: the triangles of the two points.
  /// If found: the gap is at most this at every instant of the interval.
  double upperMm = 0;
  std::uint64_t nodeTests = 0;
};

/// Descends both trees at once. A pair of boxes, or of triangles, is settled when a direction that
/// separates it at the middle still does over the whole interval: only the velocity along that direction
/// counts to first order, and the bend bound to second (see `TravelBounds`).
/// Bounds are in double, with a margin of 1e-9 of the parts' size; const, safe from several threads.
IntervalGap intervalGap(const BoundingTree& treeA, const BoundingTree& treeB, const MotionAtInstant& motion,
                        double halfWidth, const IntervalQuestion& question);

/// Two nodes whose triangles are not proven far enough apart yet, and how far they are proven.
struct FrontPair {
  std::uint32_t a = 0, b = 0;
  float lowerMm = 0;  ///< Rounded down.
};

/// What is left to prove of two surfaces over an interval: all pairs that are not among `pairs` are
/// at least `settledMm` apart at every instant of it. Halves of the interval start from here.
struct Front {
  std::vector<FrontPair> pairs;
  double settledMm = 0;
};

/// How far, at most, points of one whole surface move against the other part while the motion's middle goes on
/// for one unit, mm.
double wholeTravelMm(const BoundingTree& tree, const MotionAtInstant& motion, bool isA);

/// Whether two triangles touch or cross.
bool trianglesMeet(const BoundingTree& treeA, const BoundingTree& treeB, const Pose& X_AB, const TrianglePair& pair);

/// What the two whole boxes alone prove of the gap over an interval, mm.
double wholeBoxesApart(const BoundingTree& treeA, const BoundingTree& treeB, const MotionPiece& piece);

/// Nothing is settled yet.
Front wholeFront();

/// The least that is known of any two points of the surfaces over the front's interval, mm.
double leastOf(const Front& front);

/// What is asked of one interval when more is to come for its halves. All lengths in mm.
struct FrontQuestion {
  double findBelowMm = 0;  ///< As in `IntervalQuestion`.
  double neededMm = 0;     ///< To be proven, unless the middle is nearer;
  double leastMm = 0;      ///< then only this is.
  /// Also to be proven, for the bracket of the least gap: the least gap found so far or here, less
  /// `bracketMm`; as long as none is below `mattersBelowMm`, that. 0: no bracket is asked for.
  double mattersBelowMm = 0;
  double bracketMm = 0;
  double bestMm = std::numeric_limits<double>::infinity();
  /// Points that are nearer at the middle by less than this (and than a twentieth) are not looked for.
  double slackMm = 0;
  /// Once the middle is known to be below this, it need not be searched for nearer points.
  double enoughMm = 0;
  std::optional<TrianglePair> hint;  ///< Probably near each other.
  /// Both, if the whole motion is a turn about one line: rings about it.
  const RevolvedTree* revolvedA = nullptr;
  const RevolvedTree* revolvedB = nullptr;
};

/// As `intervalGap`, from a front; what is not proven comes out in `left` for the halves
/// (unless the surfaces meet at the middle: then nothing is said of `left`).
/// Pairs that only time can settle are left as they are; the middle is searched to the end.
IntervalGap advanceFront(const BoundingTree& treeA, const BoundingTree& treeB, const MotionPiece& piece,
                         const FrontQuestion& question, const Front& front, Front& left);

/// Gap at one instant of the front's interval, if below `findBelowMm` and not of a settled pair.
/// Nothing is proven of other instants: of the question `findBelowMm`, `slackMm` and `hint` count.
IntervalGap gapWithin(const BoundingTree& treeA, const BoundingTree& treeB, const MotionAtInstant& motion,
                      const FrontQuestion& question, const Front& front);

}  // namespace swingroom
