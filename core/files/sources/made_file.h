#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/base/outcome.h"

namespace swingroom {

/// A mesh file that was made, not read, and which a document names.
struct MadeFile {
  std::filesystem::path file;
  std::string bytes;
};

/// Writes them, and the folders that they are to be in. Same name, same content: what is there is
/// replaced.
/// @returns What went wrong; nothing if all are there.
std::optional<Problem> writeFiles(const std::vector<MadeFile>& files);

}  // namespace swingroom
