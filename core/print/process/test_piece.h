#pragma once

#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"
#include "core/print/process/process.h"

namespace swingroom {

/// What is to be graded. Lengths in mm; clearances on the diameter of a pin, or on the thickness of
/// a tongue (half of it a side).
struct TestPieceWish {
  double pinMm = 5;                  ///< Diameter, at least 2.
  double tongueMm = 3;               ///< Thickness, at least 1.
  double plateMm = 6;                ///< Thickness of the plate, at least 4.
  std::vector<double> clearancesMm;  ///< Whole hundredths from 0.01 to 0.99, rising, 1 to 16.
  double chamferMm = 0.5;            ///< Of the rims, so that the first layer does not decide.
  double strokeMm = 1;               ///< Width of the engraved numbers' strokes.
  double engravedMm = 0.6;           ///< Their depth.

  bool operator==(const TestPieceWish&) const = default;
};

/// 0.1 to 0.8 by 0.1; with resin 0.05 to 0.40 by 0.05. Sizes by what the process can print.
TestPieceWish testPieceWish(const PrintProcess& process);

/// One column of the plate.
struct TestPlace {
  double clearanceMm = 0;
  /// Where the pin stands in its round hole, free to turn about its own z: coaxial, its knob above
  /// the plate. Over a full turn the least gap of pin and plate is clearance / 2: corners of the
  /// pin are on its circle, and the flats of the hole touch its own from outside.
  Pose X_PlatePin;
  /// Where the tongue stands in its slot, in the middle: clearance / 2 on either side.
  Pose X_PlateTongue;
};

/// A plate with a round hole and a slot for every clearance, one pin and one tongue: a maker tries
/// the one pin in hole after hole, so that only the holes differ. Hundredths of a mm are engraved
/// between hole and slot. Every body is one closed surface, and stands on z = 0 as it is printed,
/// with its axis up.
struct TestPiece {
  TestPieceWish wish;
  TriangleMesh plate, pin, tongue;
  std::vector<TestPlace> places;  ///< By `wish.clearancesMm`.
};

/// @throws std::invalid_argument if the wish says what cannot be made.
TestPiece makeTestPiece(const TestPieceWish& wish);

/// The three side by side as they are printed, in one mesh, `spacingMm` apart.
TriangleMesh laidOut(const TestPiece& piece, double spacingMm = 5);

}  // namespace swingroom
