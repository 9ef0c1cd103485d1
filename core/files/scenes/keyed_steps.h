#pragma once

#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/files/scenes/keyed_motion.h"
#include "core/motion/motion_groups.h"

namespace swingroom {

/// Puts the modes and the steps of a keyed way into a document that has its joints: joint values at
/// every station, read off where the parts stand there. Between two modes each keyed time ends a
/// step with the joints that move in it; times that lie on one straight line of joint values are one
/// step. Hinges are followed round, so that they may turn by more than half a turn.
/// @param motion  Its first station is the document's home.
/// @param D  By station after the first, by part.
/// @returns How far the farthest part is from where each station has it, mm, by station after the
/// first.
std::vector<double> addKeyedWay(const KeyedMotion& motion, const std::vector<PartInTwoModes>& parts,
                                const std::vector<std::vector<Pose>>& D,
                                AssemblyDocument& document);

}  // namespace swingroom
