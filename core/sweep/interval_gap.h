#pragma once

#include <Eigen/Core>
#include <cstdint>

#include "core/motion/travel.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// What is asked of one interval of a motion.
struct IntervalQuestion {
  /// Prove, if it is so, that the gap is at least this at every instant of the interval, mm.
  double proveMm = 0;
  /// Find the gap at the middle if it is below this, mm. Farther gaps are not told apart.
  double findBelowMm = 0;
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
  /// If found: the gap is at most this at every instant of the interval.
  double upperMm = 0;
  std::uint64_t nodeTests = 0;
};

/// Descends both trees at once. A pair of boxes, or of triangles, is settled when the direction that
/// separates it at the middle still does over the whole interval: only the velocity along that direction
/// counts to first order, and the bend bound to second (see `TravelBounds`).
/// Bounds are in double, with a margin of 1e-9 of the parts' size; const, safe from several threads.
IntervalGap intervalGap(const BoundingTree& treeA, const BoundingTree& treeB, const MotionAtInstant& motion,
                        double halfWidth, const IntervalQuestion& question);

}  // namespace swingroom
