#pragma once

#include <cstdint>
#include <vector>

#include "core/sweep/track.h"

namespace swingroom {

/// What is known of two surfaces over all ways in which a hand may move the joints between them, each between
/// the start and the end of its step, in any order.
struct FreeStepTrack {
  /// Of every combination of values: clear; or one is tight, or touches; or the budget ran out before all
  /// was proven.
  Standing standing = Standing::unproven;
  /// lower <= least gap of any combination <= upper, mm. The instant is not set.
  LeastGap least;
  std::vector<double> parts;  ///< How far each freedom is, 0 to 1, where `least.upperMm` was found.
  std::uint64_t nodeTests = 0;
};

/// Boxes of joint values are halved along the freedom that can move the parts farthest until each is proven.
/// @param question  As for `followTrack`. Of its budget a tenth goes into the proof that the gap is large
///     enough, and a hundredth into closing the bracket after that, which may so be left wider.
FreeStepTrack followFreeStep(const BoundingTree& treeA, const BoundingTree& treeB, const RelativeMotion& motion,
                             const TrackQuestion& question, const WorkMonitor& monitor);

}  // namespace swingroom
