#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "core/proximity/solid.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/track.h"

namespace swingroom {

/// Two surfaces whose overlap is measured, and the solids that say what is inside. Lengths in mm.
struct OverlapProbe {
  const Surface* surfaceA = nullptr;
  const Surface* surfaceB = nullptr;
  const Solid* solidA = nullptr;
  const Solid* solidB = nullptr;
  const WorkMonitor* monitor = nullptr;  ///< Once it is cancelled what is answered means nothing.

  /// Without a closed shell on either side no depth can be said.
  bool canMeasure() const { return solidA->hasInside() || solidB->hasInside(); }
};

/// The deepest overlap: the greatest distance from a point of one surface inside the other part to
/// that part's boundary.
struct Overlap {
  double depthMm = 0;
  double upperMm = 0;  ///< The true greatest depth is at most this.
  double instant = 0;
  std::size_t queries = 0;                ///< What it took: nearest points that were asked for.
  Vector3d point_A = Vector3d::Zero();    ///< In A's frame: the deepest point.
  Vector3d nearest_A = Vector3d::Zero();  ///< The boundary's point nearest to it.
};

/// Overlap at one placement, at most `accuracyMm` short of the true depth.
/// @param atLeastMm Shallower overlaps are of no interest; depth 0 may be answered for them.
Overlap overlapAt(const OverlapProbe& probe, const Pose& X_AB, double atLeastMm = 0,
                  double accuracyMm = 0.005);

/// Depths that a search may leave unknown.
struct DepthsOfInterest {
  double aboveMm = 0;  ///< Up to this no depth is of interest; 0 is answered.
  double enoughMm =
      std::numeric_limits<double>::infinity();  ///< Once one is this deep, the search may end.
};

/// The deepest over every instant from `from` to `to`: depthMm <= true depth <= upperMm. They are
/// mostly within 0.005 mm or 1 % of the depth; at the instant told no place is more than 0.005 mm
/// deeper. Wide faces that slide along each other at one depth may end the search sooner; then
/// `upperMm` says what is proven. Of nearly equal depths (0.001 mm) that were found the first is
/// told.
Overlap deepestOverlap(const OverlapProbe& probe, const std::vector<Phase>& phases, double from,
                       double to, const DepthsOfInterest& interest = {});

}  // namespace swingroom
