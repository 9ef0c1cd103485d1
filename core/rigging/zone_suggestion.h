#pragma once

#include <vector>

#include "core/rigging/joint_edge.h"

namespace swingroom {

/// Zones for those of the joints that have none and turn where a pin of one of their parts is in a
/// hole of the other, or a ball in a socket: on one axis within 0.1 mm.
std::vector<SuggestedZones> zonesFor(const std::vector<Joint>& joints,
                                     const std::vector<JointEdge>& edges);

}  // namespace swingroom
