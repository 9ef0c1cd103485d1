#pragma once

#include <cstddef>

#include "core/base/transform.h"
#include "core/base/work_monitor.h"
#include "core/proximity/solid.h"

namespace swingroom {

/// How much of a solid lies deeper under its surface than the solid skin: where the infill goes.
struct DeepVolume {
  double lowerMm3 = 0, upperMm3 = 0;  ///< Proven of the mesh: the true volume lies between.
  double bestMm3 = 0;                 ///< Cells that are cut are counted by the share that is deep.
  Vector3d centre = Vector3d::Zero();  ///< Of `bestMm3`, in the mesh's frame; zero if that is 0.
  /// The first moment about any point is off by at most this + `doubtMm3` times the point's
  /// distance from `doubtCentre`.
  double doubtMm3 = 0;
  double doubtReachMm4 = 0;
  Vector3d doubtCentre = Vector3d::Zero();
  /// Volume that overlapping shells count twice, as far as it was seen; 0 for a sound mesh.
  double countedTwiceMm3 = 0;
};

struct DeepVolumeQuestion {
  double depthMm = 0;                ///< Above 0.
  double accurateToMm3 = 0;          ///< The bracket may be this wide.
  std::size_t most = 60'000;         ///< Cells that may be looked at.
  const WorkMonitor* monitor = nullptr;
};

/// Halves cubes until each is proven deep or not (a distance changes by no more than the way), the
/// largest first. The shells must be closed.
DeepVolume deepVolume(const Solid& solid, const DeepVolumeQuestion& question);

}  // namespace swingroom
