#pragma once

#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/files/urdf/read_srdf.h"
#include "core/files/urdf/robot_parts.h"
#include "core/files/urdf/robot_tree.h"

namespace swingroom {

/// The joints of a robot as the assembly file has them: axes in the assembly frame with every joint
/// at 0, degrees and mm. Floating and planar joints are held fixed, with a note. Further parts of a
/// link are fixed to its first.
/// @param partsOf  By link: its parts.
std::vector<DocumentJoint> robotJoints(const RobotDescription& robot, const RobotTree& tree,
                                       const std::vector<std::vector<std::string>>& partsOf,
                                       XmlProblems& problems);

/// Pairs that are taken out of the verdicts, each with its reason: parts of one link, which is one
/// body; links whose collisions an SRDF file says are not to be looked at; and, if that is asked
/// for, links that are joined, by one joint or by several with nothing but bare links between.
std::vector<DocumentPair> robotPairs(const RobotDescription& robot, const RobotTree& tree,
                                     const std::vector<ChosenBody>& bodies,
                                     const std::vector<std::vector<std::string>>& partsOf,
                                     const RobotStates& states, bool allowJoined);

}  // namespace swingroom
