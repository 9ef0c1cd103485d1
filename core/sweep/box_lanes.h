#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/motion/travel.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// How many pairs are compared at once.
constexpr std::size_t kLanes = 4;
/// Joints between two parts that may move at once; with more nothing is proven of the pair.
constexpr std::size_t kMostAxes = 64;

/// An interval of a motion as plain numbers, for `compareBoxes` and `compareTriangles`; the same
/// bounds as `TravelBounds`. Frames and units as there; matrices by column.
struct LaneMotion {
  LaneMotion(const MotionAtInstant& motion, double halfWidth);

  struct Axis {
    double point[3], direction[3];
    double turnRateRad, slideRateMm;  ///< Sizes, not negative.
    double turnedBeforeRad;           ///< How far the joints outside it can turn it.
  };

  double R_AB[9], p_AB[3];
  double linear[3], angular[3];  ///< Of B against A at the middle; per step.
  double halfWidth;
  bool moves;
  std::vector<Axis> axes;  ///< From A outwards.
};

/// What is proven of some pairs. Lengths in mm; 0: nothing.
struct LaneBounds {
  std::array<double, kLanes> gapMm;    ///< Apart at the middle by at least this.
  std::array<double, kLanes> lowerMm;  ///< At every instant of the interval.
};

/// Compares boxes in pairs. Rounding (about 1e-13 of the coordinates) is the caller's to allow for.
/// @param proveMm  Another direction is tried where `lowerMm` would be below this.
/// The same bytes whatever instructions the processor has.
void compareBoxes(const LaneMotion& motion, const std::array<const BoundingTree::Node*, kLanes>& a,
                  const std::array<const BoundingTree::Node*, kLanes>& b, double proveMm,
                  LaneBounds& bounds);

/// Up to four triangles of B, placed in A's frame at the middle, as numbers lane by lane.
struct PlacedTriangles {
  alignas(32) double corner[3][3][kLanes];  ///< By corner, coordinate, lane.
  alignas(32) double normal[3][kLanes];     ///< Unit; 0 for a triangle without area.
  /// By axis of the motion: bound of the departure from even motion along a direction across it, mm.
  std::array<double, kMostAxes> bendMm;
};

/// The leaf's triangles; lanes beyond them repeat the last one.
PlacedTriangles placeTriangles(const LaneMotion& motion, const BoundingTree& treeB,
                               const BoundingTree::Node& leafB);

/// Bounds from a few directions (normals of the faces, from middle to middle): often enough, and
/// far quicker than the nearest points. Never more than the true gap.
void compareTriangles(const LaneMotion& motion, const TriangleCorners& onA,
                      const PlacedTriangles& onB, double proveMm, LaneBounds& bounds);

}  // namespace swingroom
