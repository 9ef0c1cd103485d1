#pragma once

#include <filesystem>

#include "core/base/outcome.h"
#include "core/files/mesh_file.h"
#include "core/files/mesh_format.h"

namespace swingroom {

/// Reads a mesh file in this process. The libraries behind it may hang, abort or take all memory on
/// a damaged file: for the reader program only, everyone else asks a `MeshReader`. In problems
/// `where` is the place in the file ("triangle 812"), empty for all of it.
Outcome<MeshFile> readMeshHere(const std::filesystem::path& file);

/// The format by the file's ending, if its bytes can be that.
Outcome<MeshFormat> checkedFormat(const std::filesystem::path& file);

}  // namespace swingroom
