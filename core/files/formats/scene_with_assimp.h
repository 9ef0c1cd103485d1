#pragma once

#include <filesystem>

#include "core/base/outcome.h"
#include "core/files/mesh_format.h"
#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// Every node of the tree that has meshes of its own is a part; nodes with the same meshes share one
/// surface. glTF: with its nodes and animations. For the reader program only.
Outcome<SceneFile> readSceneWithAssimp(const std::filesystem::path& file, MeshFormat format);

}  // namespace swingroom
