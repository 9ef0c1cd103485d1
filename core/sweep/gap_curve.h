#pragma once

#include <vector>

#include "core/base/work_monitor.h"
#include "core/motion/sequence.h"
#include "core/sweep/part_geometry.h"

namespace swingroom {

/// One point of a pair's gap over a sequence.
struct GapSample {
  double instant = 0;  ///< Of the sequence, 0 to 1.
  double gapMm = 0;    ///< At most the cap that was asked for; negative: that deep in overlap.

  bool operator==(const GapSample&) const = default;
};

struct GapCurveQuestion {
  std::vector<double> instants;  ///< 0 to 1, in any order.
  double capMm = 2;              ///< Gaps at or above this are not told apart.
  double resolutionMm = 0.01;    ///< As the check was run with.
  /// Whether depths are measured, and one part wholly inside the other is looked for; else overlap
  /// is 0.
  bool depthsToo = true;
  double depthAccuracyMm = 0.02;
  const WorkMonitor* monitor = nullptr;  ///< Once it is cancelled, samples are missing.
};

/// The gap of two parts at some instants, for drawing: the surfaces are those that the check judges
/// by the required gap, with joint zones cut away. Overlap inside a zone counts where the joint's
/// fit does not excuse it. A step whose joints move freely is followed as if they moved together.
/// What is found between the instants, and the verdict, is for the check alone.
/// @returns One sample an instant, in the order asked.
/// @throws std::invalid_argument if a part has no geometry. Const, safe from several threads.
std::vector<GapSample> gapCurve(const Assembly& assembly, const Sequence& sequence,
                                const AssemblyGeometry& geometry, PartId a, PartId b,
                                const GapCurveQuestion& question);

}  // namespace swingroom
