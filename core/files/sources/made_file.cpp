#include "core/files/sources/made_file.h"

#include <system_error>

#include "core/files/replace_file.h"

namespace swingroom {

std::optional<Problem> writeFiles(const std::vector<MadeFile>& files) {
  for (const MadeFile& made : files) {
    std::error_code error;
    std::filesystem::create_directories(made.file.parent_path(), error);
    if (error) {
      return Problem{made.file.parent_path().string(),
                     "this folder for made meshes cannot be made: " + error.message(),
                     "save the assembly in a folder that may be written"};
    }
    if (auto problem = replaceFile(made.file, made.bytes)) return problem;
  }
  return std::nullopt;
}

}  // namespace swingroom
