#pragma once

#include <optional>

#include "core/stages/stage_surface.h"

namespace swingroom {

/// A place of a wall in two stages. mm, in the part's frame.
struct WallChange {
  Eigen::Vector3d at = Eigen::Vector3d::Zero();  ///< Middle of the block's wall there.
  double beforeMm = 0;
  double afterMm = 0;
};

struct WallSettings {
  double thickestMm = 2.5;   ///< Thicker ones of the block are no walls.
  double leastMm = 0.25;     ///< Thinner by less is not told,
  double leastShare = 0.3;   ///< nor by less than this share,
  double enoughMm = 1.0;     ///< nor what is still this thick.
  std::size_t places = 8000; ///< Looked at, evenly over the block's surface.
  unsigned threads = 1;
};

/// The wall that is thinnest in the detail among those that became much thinner; none: no wall did.
///
/// A wall is looked at where both its sides face away from each other within 35 degrees, along the
/// normal of one of them. What is measured is reached: the wall is no thicker there, and may be
/// thinner beside the places that were looked at and, by a fifth at most, along another direction
/// than the normal. Where the detail has a hole of its own, or the wall moved away by more than its
/// thickness, it is not compared: holes are told elsewhere. Stages without an inside have no walls.
/// Cost: 10 us a place.
std::optional<WallChange> thinnedWall(const StageSurface& block, const StageSurface& detail,
                                      const WallSettings& settings = {});

}  // namespace swingroom
