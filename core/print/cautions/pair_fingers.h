#pragma once

#include <optional>
#include <vector>

#include "core/print/cautions/finger_gaps.h"
#include "core/print/cautions/finger_room.h"
#include "core/print/cautions/finger_spots.h"

namespace swingroom {

/// Two parts in one step of a way.
struct PairStep {
  PartId spotsOf, other;
  const Sequence* sequence = nullptr;
  std::size_t way = 0, step = 0;
};

/// The opening between the two in that step, if they move against each other and a finger may be
/// caught; both have meshes.
/// @param spots  Of the first, from which the other is looked at.
std::optional<FingerGap> fingerGapIn(const PrintSubject& subject, const FingerRods& rods,
                                     const FingerRoom& room, const std::vector<FingerSpot>& spots,
                                     const PairStep& at);

}  // namespace swingroom
