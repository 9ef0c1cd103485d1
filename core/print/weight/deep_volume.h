#pragma once

#include <cstddef>

#include "core/base/transform.h"
#include "core/base/work_monitor.h"
#include "core/proximity/solid.h"

namespace swingroom {

/// How much of a solid lies deeper under its surface than the solid skin: where the infill goes.
struct DeepVolume {
  double lowerMm3 = 0, upperMm3 = 0;  ///< Proven of the mesh: the true volume lies between.
  /// Cells that are cut are counted by the share that is deep if the surface near them is flat.
  double bestMm3 = 0;
  /// `bestMm3` is about as good as this, not proven: how much it changed when the cells were halved
  /// last, and three standard deviations of what random shares would make of the sum.
  double accuracyMm3 = 0;
  Vector3d centre = Vector3d::Zero();  ///< Of `bestMm3`, in the mesh's frame; zero if that is 0.
  double momentAccuracyMm4 = 0;        ///< The same of the first moment about `centre`.
  /// Volume that overlapping shells count twice, as far as it was seen; 0 for a sound mesh.
  double countedTwiceMm3 = 0;
};

struct DeepVolumeQuestion {
  double depthMm = 0;          ///< Above 0.
  double accurateToMm3 = 0;    ///< Good enough.
  std::size_t most = 150'000;  ///< Cells that may be looked at.
  const WorkMonitor* monitor = nullptr;
};

/// Halves cubes until each is proven deep or not (a distance changes by no more than the way), the
/// largest first. The shells must be closed.
DeepVolume deepVolume(const Solid& solid, const DeepVolumeQuestion& question);

}  // namespace swingroom
