#include "core/files/sources/source_kind.h"

#include <system_error>

#include "core/files/mesh_format.h"

namespace swingroom {

bool isSceneName(const std::filesystem::path& source) {
  return meshFormatOf(source).has_value();
}

bool isRobotName(const std::filesystem::path& source) {
  std::string ending = source.extension().string();
  for (char& c : ending) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return ending == ".urdf";
}

bool mayHoldManyParts(const std::filesystem::path& source) {
  const auto format = meshFormatOf(source);
  return format && *format != MeshFormat::stl && *format != MeshFormat::ply;
}

Outcome<SourceKind> sourceKindOf(const std::filesystem::path& source) {
  std::error_code ignored;
  if (std::filesystem::is_directory(source, ignored)) return SourceKind::folder;
  if (!std::filesystem::exists(source, ignored)) {
    return Problem{source.string(), "there is no such file or folder", "check its name"};
  }
  if (source.extension() == ".json") return SourceKind::assembly;
  if (isSceneName(source)) return SourceKind::scene;
  if (isRobotName(source)) return SourceKind::robot;
  return Problem{source.string(), "is neither a folder nor a file that parts are read from",
                 "name a folder of part files, or one file: " + allMeshFormats() + ", or URDF"};
}

}  // namespace swingroom
