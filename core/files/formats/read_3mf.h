#pragma once

#include <filesystem>

#include "core/base/outcome.h"
#include "core/files/mesh_file.h"

namespace swingroom {

/// The build items of a 3MF file, placed and joined, mm, not welded and not looked over. Supports
/// are left out.
Outcome<MeshFile> readThreeMf(const std::filesystem::path& file);

/// The same apart: each mesh object as often as it is placed, by build items and components.
Outcome<SceneFile> readThreeMfScene(const std::filesystem::path& file);

}  // namespace swingroom
