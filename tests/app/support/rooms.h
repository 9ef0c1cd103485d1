#pragma once

#include "tests/app/support/assemblies.h"

namespace swingroom {

/// The press's boxes with other rules, so that room has a closed form. The required gap is 0.1, the
/// sled goes 2 mm towards the block, whose face is at x = 10 and spans more than the sled's; the
/// rail's underside is at z = 8.2, over all of the sled at every instant but the 2 mm of the
/// block's side. A place d behind the sled's front and at height z comes 2 + d near to the block,
/// at the end, and 8.2 - z to the rail, all the time.
/// @returns The file.
inline std::filesystem::path writeRoomPress(const Bench& press) {
  const auto file = press.folder() / "room.swing.json";
  writeBytes(file, R"({
  "swingroom": 1, "name": "Room press", "requiredGap": 0.1,
  "parts": [
    {"name": "block", "stages": {"block": "block.stl"}},
    {"name": "sled", "stages": {"block": "sled.stl"}},
    {"name": "rail", "stages": {"block": "rail.stl"}}
  ],
  "joints": [
    {"name": "sled way", "type": "slide", "parent": "block", "child": "sled", "along": [-1, 0, 0]}
  ],
  "modes": [
    {"name": "out", "values": {"sled way": 0}},
    {"name": "in", "values": {"sled way": 2}}
  ],
  "sequences": [
    {"name": "push", "from": "out", "to": "in",
     "steps": [{"name": "push in", "moves": {"sled way": 2}}]}
  ]
})");
  return file;
}

constexpr double kRoomRequiredMm = 0.1, kRoomFrontXMm = 14;  ///< Of the sled, as modelled.

/// Room of a place of the sled's sides (y of 2 or 8) or underneath, by the form above, not capped.
inline double sledRoomMm(const Vector3d& p_P) {
  return std::min(2 + p_P.x() - kRoomFrontXMm, 8.2 - p_P.z()) - kRoomRequiredMm;
}

}  // namespace swingroom
