#pragma once

#include <filesystem>
#include <vector>

#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// The nodes of a glTF's scene and how they move, without meshes.
struct GltfTree {
  std::vector<SceneNode> nodes;  ///< Each before its children, first child first.
  std::size_t roots = 0;
  std::vector<SceneAnimation> animations;
  Problems notes;  ///< Animations that cannot be followed, and why.
};

/// Never fails: what cannot be read is left out and noted. For the reader program only.
GltfTree readGltfTree(const std::filesystem::path& file, bool isBinary);

}  // namespace swingroom
