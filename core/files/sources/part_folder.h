#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/files/sources/given_parts.h"

namespace swingroom {

/// Which of a folder's files, and until when.
struct PartChoice {
  std::vector<std::string> only;  ///< File names; empty: all.
  /// May be null. Once it is cancelled, reading ends with some problem.
  const WorkMonitor* monitor = nullptr;
};

/// Reads every mesh file in `folder`, not those in folders in it. Hidden files do not count. All
/// mistakes come in one go. Numbers without a unit are taken as mm; see `takeUnit`.
Outcome<GivenParts> readPartFolder(const std::filesystem::path& folder, const MeshReader& reader,
                                   unsigned threads, const PartChoice& choice = {});

}  // namespace swingroom
