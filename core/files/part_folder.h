#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/files/mesh_file.h"

namespace swingroom {

/// One part, as a file of a folder has it.
struct FolderPart {
  std::string name;            ///< The file's, without ending.
  std::filesystem::path file;  ///< Absolute.
  MeshFile mesh;               ///< In mm, `scale` applied.
  double scale = 1;            ///< What the file's numbers were multiplied by: it has no unit.
};

/// A mode of an assembly as makers export it: one part a file, all in one frame.
struct PartFolder {
  std::string name;
  std::vector<FolderPart> parts;     ///< By name.
  std::vector<std::string> leftOut;  ///< Names of files that are no meshes.
};

/// Which of a folder's files, and until when.
struct PartChoice {
  std::vector<std::string> only;  ///< File names; empty: all.
  /// May be null. Once it is cancelled, reading ends with some problem.
  const WorkMonitor* monitor = nullptr;
};

/// Reads every mesh file in `folder`, not those in folders in it. Hidden files do not count. All
/// mistakes come in one go.
/// @param mmPerUnit For formats without a unit.
Outcome<PartFolder> readPartFolder(const std::filesystem::path& folder, double mmPerUnit,
                                   const MeshReader& reader, unsigned threads,
                                   const PartChoice& choice = {});

}  // namespace swingroom
