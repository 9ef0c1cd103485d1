#pragma once

#include <vector>

#include "core/rigging/joint_edge.h"

namespace swingroom {

/// Hangs every part that has a sign on the ground part, by a spanning tree of the best signs.
/// @param pins  That are to be placed yet: what they go through is not hung by weak signs.
/// @param ground  An index of `question.parts`.
std::vector<SuggestedJoint> hangAll(const RigQuestion& question,
                                    const std::vector<JointEdge>& edges,
                                    const std::vector<SuggestedPin>& pins, std::size_t ground);

/// The part that all else is thought to hang on: the one whose joints are there already, else the
/// largest that has signs of joints. None without a part that has a mesh.
std::optional<PartId> groundGuess(const RigQuestion& question, const std::vector<JointEdge>& edges);

/// A plain pin: one cylinder all along, and nothing of it stands far out.
/// @returns That cylinder, in the part's frame.
const CylinderFeature* plainPinOf(const RigPart& part);

}  // namespace swingroom
