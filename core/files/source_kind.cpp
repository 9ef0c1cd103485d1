#include "core/files/source_kind.h"

#include <system_error>

#include "core/files/mesh_format.h"

namespace swingroom {

bool isSceneName(const std::filesystem::path& source) {
  return meshFormatOf(source).has_value();
}

Outcome<SourceKind> sourceKindOf(const std::filesystem::path& source) {
  std::error_code ignored;
  if (std::filesystem::is_directory(source, ignored)) return SourceKind::folder;
  if (!std::filesystem::exists(source, ignored)) {
    return Problem{source.string(), "there is no such file or folder", "check its name"};
  }
  if (isSceneName(source)) return SourceKind::scene;
  return Problem{source.string(), "is neither a folder nor a file that parts are read from",
                 "name a folder of part files, or one file: " + allMeshFormats()};
}

}  // namespace swingroom
