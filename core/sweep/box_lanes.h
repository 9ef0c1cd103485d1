#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <vector>

#include "core/motion/travel.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// How many pairs are compared at once.
constexpr std::size_t kLanes = 4;

/// A piece of a motion about its middle.
struct MotionPiece {
  MotionAtInstant middle;
  double halfWidth = 0;
  /// All joints go evenly, and are at one time at the same share of `halfWidth`. If not, each freedom is
  /// anywhere within `halfWidth` of its rate, whatever the others do.
  bool together = true;
};

/// A piece of a motion as plain numbers, for `compareBoxes` and `compareTriangles`: the bounds of
/// `TravelBounds`, to third order where all goes together, else to second. Frames and units as there; matrices
/// by column.
struct LaneMotion {
  /// @param wholeB  Holds every point of B that is asked about.
  LaneMotion(const MotionPiece& piece, const BoundingTree::Node& wholeB);

  /// Velocity of B's points against A at the middle; per step.
  struct Field {
    double linear[3], angular[3];
  };

  /// One that turns.
  struct Axis {
    double point[3], direction[3];
    double turnedBeforeRad;  ///< How far the joints outside it can turn it.
    double restMm;           ///< Its share of what the bound of highest order leaves open.
  };

  double R_AB[9], p_AB[3];
  Field velocity;                     ///< Of all joints.
  std::vector<Field> fields;          ///< What can go either way for itself: by freedom, or all together.
  double bendLinear[3], bendTurn[9];  ///< Acceleration; 0 unless all goes together.
  double halfWidth;
  bool moves;
  std::vector<Axis> axes;
  double restMm;  ///< Of all axes, whatever the direction.
  /// One hinge alone: the third-order bound is this much for each mm from the axis.
  double restForEachMm;

 private:
  void addFreedoms(const MotionAtInstant& motion);
};

/// What is proven of some pairs. Lengths in mm; 0: nothing.
struct LaneBounds {
  std::array<double, kLanes> gapMm;    ///< Apart at the middle by at least this.
  std::array<double, kLanes> lowerMm;  ///< At every instant of the interval.
};

/// A further direction is tried for pairs that are not proven to `settleMm`, unless it would not even prove
/// `leastMm`. Of triangles also for those that may be nearer than `soughtMm` at the middle.
struct LaneGoals {
  double settleMm = 0, leastMm = 0;
  double soughtMm = std::numeric_limits<double>::infinity();
};

/// Compares boxes in pairs. Rounding (about 1e-13 of the coordinates) is the caller's to allow for.
/// The same bytes whatever instructions the processor has.
void compareBoxes(const LaneMotion& motion, const std::array<const BoundingTree::Node*, kLanes>& a,
                  const std::array<const BoundingTree::Node*, kLanes>& b, const LaneGoals& goals,
                  LaneBounds& bounds);

/// Up to four triangles of B, placed in A's frame at the middle, as numbers lane by lane.
struct PlacedTriangles {
  alignas(32) double corner[3][3][kLanes];  ///< By corner, coordinate, lane.
  alignas(32) double normal[3][kLanes];     ///< Unit; 0 for a triangle without area.
  double fromAxisMm = 0;                    ///< How far, at most, they are from a single hinge's axis.
};

/// The leaf's triangles; lanes beyond them repeat the last one.
PlacedTriangles placeTriangles(const LaneMotion& motion, const BoundingTree& treeB,
                               const BoundingTree::Node& leafB);

/// Bounds from a few directions (normals of the faces, from middle to middle): often enough, and
/// far quicker than the nearest points. Never more than the true gap.
void compareTriangles(const LaneMotion& motion, const TriangleCorners& onA,
                      const PlacedTriangles& onB, const LaneGoals& goals, LaneBounds& bounds);

}  // namespace swingroom
