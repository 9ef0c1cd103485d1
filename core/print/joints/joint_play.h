#pragma once
#include <optional>
#include <string>
#include <vector>
#include "core/assembly/joint.h"
namespace swingroom {
struct PlayFigures {
  double radialMm = 0;
  double tiltRad = 0;
  std::optional<double> axialMm;
  bool operator==(const PlayFigures&) const = default;
};
enum class PlaySource { unknown, fit, written };
struct JointPlay {
  JointId joint;
  PlaySource source = PlaySource::unknown;
  PlayFigures asModelled, asPrinted, loosest;
  std::string reason;
  bool operator==(const JointPlay&) const = default;
};
}  // namespace swingroom
