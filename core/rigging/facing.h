#pragma once

#include <optional>
#include <vector>

#include "core/rigging/rig_part.h"

namespace swingroom {

/// Parts farther apart than this say nothing about each other, mm.
constexpr double kFacingMm = 1.0;

/// A piece of the second part's surface that faces the first: it cannot move along its normal.
struct FacingSample {
  Vector3d normal_W = Vector3d::Zero();
  double areaMm2 = 0;
  double gapMm = 0;
};

/// What the surfaces of two parts that face each other leave free. Assembly frame, mm.
struct Facing {
  double areaMm2 = 0;  ///< Of one part's surface that faces the other within reach.
  double leastGapMm = 0;
  /// The one way along which the second part slides on the first: faces guide it all round. Points
  /// away from a stop, if there is one.
  std::optional<Vector3d> slide;
  bool hasStop = false;  ///< It can slide one way only.
  /// Faces of at least three directions hold it, and it does not slide.
  bool held = false;
  std::vector<FacingSample> samples;

  /// The way along `along`, unit, that a stop leaves, if faces stop one of both; else none.
  std::optional<Vector3d> awayFromStop(const Vector3d& along) const;
};

/// Slippage analysis: a motion is free if facing surfaces do not move along their normals (Gelfand
/// and Guibas, Shape Segmentation Using Local Slippage Analysis, SGP 2004), here for translations;
/// unlike there a face holds on its own side only. None if nothing faces within reach.
std::optional<Facing> facingBetween(const RigPart& a, const RigPart& b);

}  // namespace swingroom
