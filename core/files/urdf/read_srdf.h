#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/files/urdf/robot_description.h"
#include "core/files/urdf/xml_reading.h"

namespace swingroom {

/// A named state of some joints.
struct RobotState {
  std::string name;
  std::map<std::string, double> values;  ///< Joint -> radians or metres.
  int line = 0;
};

/// What an SRDF file (the semantic description that stands beside a URDF) says of a robot.
struct RobotStates {
  struct Allowed {
    std::string linkA, linkB, reason;
  };
  std::vector<RobotState> states;    ///< States of one name in several groups are one.
  std::vector<Allowed> allowed;      ///< Links whose collisions are not looked at.
  std::vector<std::string> unknown;  ///< Links that are named there and are not in the robot.
};

/// Reads the group states and disabled collisions of an SRDF file. Joints that are not there are
/// told; values of joints that do not move are passed over.
RobotStates readSrdf(const RobotDescription& robot, XmlProblems& problems);

}  // namespace swingroom
