#pragma once

#include <filesystem>
#include <string>

namespace swingroom {

/// What a stage of a part names: a mesh file, or one part of a file that holds several, written
/// `figure.glb#torso`.
struct MeshPath {
  std::filesystem::path file;
  std::string part;  ///< Empty: all of the file.

  bool operator==(const MeshPath&) const = default;
};

/// Takes a written path apart. A file that is called so as a whole wins; else the file's name ends at
/// the first # after an ending that is read.
/// @param folder  What relative paths are from.
/// @returns The file as it is found from here: `folder` joined and normalised.
MeshPath meshPathOf(const std::filesystem::path& folder, const std::string& written);

/// As a stage has it.
std::string writtenMeshPath(const MeshPath& path);

}  // namespace swingroom
