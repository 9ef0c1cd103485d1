#include "core/files/mesh_path.h"

#include <system_error>

#include "core/files/mesh_format.h"

namespace swingroom {

MeshPath meshPathOf(const std::filesystem::path& folder, const std::string& written) {
  const MeshPath whole{(folder / written).lexically_normal(), ""};
  std::size_t at = written.find('#');
  std::error_code ignored;
  if (at == std::string::npos || std::filesystem::exists(whole.file, ignored)) return whole;
  for (; at != std::string::npos; at = written.find('#', at + 1)) {
    const std::string file = written.substr(0, at), part = written.substr(at + 1);
    if (part.empty() || !meshFormatOf(file)) continue;
    return {(folder / file).lexically_normal(), part};
  }
  return whole;
}

std::string writtenMeshPath(const MeshPath& path) {
  const std::string file = path.file.generic_string();
  return path.part.empty() ? file : file + "#" + path.part;
}

}  // namespace swingroom
