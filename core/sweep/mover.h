#pragma once

#include <optional>
#include <vector>

#include "core/sweep/track.h"

namespace swingroom {

/// The joint that brings two surfaces together at `instant`, where a clash begins: just before it, the one
/// that adds most to the speed at which the two nearest points approach. None if nothing moves them together,
/// or the clash is there from the start.
std::optional<JointId> moverAt(const BoundingTree& treeA, const BoundingTree& treeB, const std::vector<Phase>& phases,
                               double instant);

}  // namespace swingroom
