#pragma once

#include <Eigen/Geometry>

#include "core/stages/stage_surface.h"

namespace swingroom {

/// How a part's detail mesh lies on its block, found out from the two surfaces.
enum class StageFitKind {
  fits,      ///< Where the block is; what differs is sculpted.
  shifted,   ///< The block, moved.
  turned,    ///< The block, turned (and moved), by no quarter turns about the axes.
  swapped,   ///< The block with its axes exchanged: turned by quarters.
  mirrored,  ///< The block's mirror image.
  other,     ///< Neither: another part, it seems.
};

struct StageFit {
  StageFitKind kind = StageFitKind::fits;
  /// The detail's numbers times this are of the block's size; 1 unless they differ by far.
  double factor = 1;
  /// What was done to the block's places to get the detail's, after its numbers were multiplied by
  /// `factor`: rigid, or with a reflection. Identity where it fits or is another part.
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  /// Mean distance of the two surfaces, both ways, each place's capped at a tenth of the block's
  /// size: as they are (multiplied by `factor`), and with `X` undone. mm.
  double apartMm = 0, apartUndoneMm = 0;

  bool isFine() const { return kind == StageFitKind::fits && factor == 1; }
};

/// Tells a mesh that was exported wrongly from one that was sculpted: what is only moved, turned,
/// mirrored or multiplied lies on the block again when that is undone, and much better than before;
/// what was sculpted does not. A few thousand places are looked at. Deterministic.
/// It does not see a shift that is smaller than half of what was sculpted nearly everywhere.
/// Cost: 10 to 50 ms if it fits, else up to about a second. Robust least squares to tangent planes
/// (Chen & Medioni, Image and Vision Computing 10(3), 1992), absolute deviations by reweighting.
StageFit stageFitOf(const StageSurface& block, const StageSurface& detail);

/// Mean distance, as `StageFit::apartMm`, of two surfaces as they are; 0: one of them is empty.
double meanApartMm(const StageSurface& a, const StageSurface& b);

}  // namespace swingroom
