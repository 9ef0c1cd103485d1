#pragma once

#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/files/urdf/read_srdf.h"
#include "core/files/urdf/robot_tree.h"

namespace swingroom {

/// A state that was asked for by words, as `NAME=joint:value,...` in degrees and mm.
/// @returns In radians and metres; problems name joints that are not there and words that are none.
Outcome<RobotState> parsedPose(const std::string& words, const RobotDescription& robot);

struct RobotModes {
  std::vector<DocumentMode> modes;
  std::vector<DocumentSequence> sequences;  ///< From the first mode to the second; none if alone.
  std::vector<std::string> found;           ///< Sentences about them.
};

/// The modes of a robot: every joint at 0 (or as near as its limits, and those of what follows it,
/// allow); then the states, or without any, if something moves, one in which each joint stands half
/// way from there to its farther limit (no limits: at 90 degrees or 100 mm). Values beyond limits
/// are brought to the limit, with a note.
RobotModes robotModes(const RobotDescription& robot, const RobotTree& tree,
                      const std::vector<RobotState>& states, XmlProblems& problems);

/// Limits in degrees or mm, as the assembly file has them.
std::optional<TwoNumbers> fileLimits(const RobotJoint& joint);

}  // namespace swingroom
