#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/files/mesh_file.h"
#include "core/files/scenes/keyed_wish.h"

namespace swingroom {

/// What a file with many parts offers, before an assembly is made of it.
struct SceneLook {
  std::vector<std::string> parts;  ///< In the file's order.
  bool unitAssumed = false;
  /// Moments that may be modes, each with a name to begin with: the keyed times of all animations
  /// played together, or, where they cannot be, the end of each animation. None: nothing that moves
  /// a part is keyed.
  std::vector<KeyedModeWish> moments;
};

SceneLook lookAt(const SceneFile& scene);

}  // namespace swingroom
