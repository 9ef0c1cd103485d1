#pragma once

#include <filesystem>

#include "core/base/outcome.h"
#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// Reads a file as its parts, in this process: for the reader program only, as `readMeshHere`.
Outcome<SceneFile> readSceneHere(const std::filesystem::path& file);

}  // namespace swingroom
