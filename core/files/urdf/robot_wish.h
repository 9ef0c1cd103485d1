#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace swingroom {

/// What of `new` only robot descriptions know.
struct RobotWish {
  bool collision = false;  ///< Take the collision geometry, not the visual one.
  std::map<std::string, std::filesystem::path> packages = {};  ///< Package -> folder.
  /// SRDF file with named states; none: that beside the URDF of the same name, if there is one.
  std::optional<std::filesystem::path> states = {};
  std::vector<std::string> poses = {};  ///< "NAME=joint:value,..." in degrees and mm.
  /// Take parts that a joint joins out of the verdicts: in robots they touch there by design.
  bool allowJoined = false;
};

}  // namespace swingroom
