#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace swingroom {

enum class MeshFormat { stl, obj, ply, gltf, glb, dae, threeMf, step };

/// By the file's ending, in capitals or not; nothing if it is none that is read.
std::optional<MeshFormat> meshFormatOf(const std::filesystem::path& file);

/// As makers write it: "STL", "glTF", "3MF".
std::string nameOf(MeshFormat format);

/// All names that this build reads, for a hint: "STL, OBJ, PLY, glTF, GLB, DAE, 3MF or STEP".
std::string allMeshFormats();

}  // namespace swingroom
