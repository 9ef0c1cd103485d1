#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/files/urdf/robot_description.h"
#include "core/files/urdf/xml_reading.h"

namespace swingroom {

/// How the links of a robot hang on each other.
struct RobotTree {
  std::size_t root = 0;
  std::vector<std::size_t> order;                   ///< Links, each after its parent.
  std::vector<std::optional<std::size_t>> jointTo;  ///< By link: the joint that carries it.
  std::vector<Pose> X_WL;  ///< By link, every joint at 0; metres. W: the root.
  std::vector<std::optional<std::size_t>> leader;  ///< By joint: the one that it mimics.
};

/// Finds the root and where each link stands with every joint at 0. Names that stand twice, links
/// that are not there, several roots, links on two joints, rings of links and of mimics are all
/// told to `problems`.
/// @returns Nothing if any of them is.
std::optional<RobotTree> robotTree(const RobotDescription& robot, XmlProblems& problems);

/// The joint of that name.
std::optional<std::size_t> jointNamed(const RobotDescription& robot, const std::string& name);

/// Names of all joints that turn or slide and mimic no other, for "did you mean".
std::vector<std::string> movingJointNames(const RobotDescription& robot);

}  // namespace swingroom
