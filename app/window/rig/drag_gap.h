#pragma once

#include <optional>

#include "app/session/rig/joint_hand.h"
#include "core/sweep/standing_gaps.h"

namespace swingroom {

/// Of the pairs that are near now, the nearest that a hand on this drive moves against each other;
/// pairs that may touch by design are left out.
std::optional<StandingGap> nearestMoved(const Scene& scene, const Configuration& standing,
                                        const JointDrive& drive,
                                        const std::vector<StandingGap>& near);

}  // namespace swingroom
