#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/base/transform.h"
#include "core/files/document/assembly_document.h"
#include "core/files/mesh_file.h"

namespace swingroom {

/// One part as it stands in one mode, and how an assembly file says it.
struct GivenPart {
  std::string name;
  std::filesystem::path file;  ///< Absolute.
  MeshFile mesh;               ///< As it stands in the assembly frame: scaled, mirrored, placed.
  double scale = 1;            ///< What the file's numbers are multiplied by.
  std::string inFile = {};     ///< The part of the file that it is; empty: the whole file.
  std::optional<DocumentMirror> mirror = {};
  std::optional<DocumentPlacement> placement = {};
};

/// A mode of an assembly as makers export it: all parts in one frame.
struct GivenParts {
  std::string name;                  ///< The folder's, or the file's without ending.
  std::filesystem::path source;      ///< As it was asked for.
  std::vector<GivenPart> parts;      ///< Of a folder by name; of a file in its order.
  std::vector<std::string> leftOut;  ///< Names of files that are no meshes.
  Problems notes = {};               ///< Worth knowing of what was read.
};

}  // namespace swingroom
