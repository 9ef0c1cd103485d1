#pragma once

#include <filesystem>

#include "core/base/outcome.h"
#include "core/files/mesh_file.h"
#include "core/files/mesh_format.h"

namespace swingroom {

/// Any format but 3MF, all nodes placed and joined, mm, Z up, not welded and not looked over:
/// numbers may be infinite.
Outcome<MeshFile> readWithAssimp(const std::filesystem::path& file, MeshFormat format);

}  // namespace swingroom
