#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <vector>

#include "core/assembly/part.h"
#include "core/files/document/assembly_document.h"
#include "core/files/document/document_problems.h"
#include "core/files/mesh_file.h"
#include "core/files/mesh_memory.h"

namespace swingroom {

/// Mesh files that other programs may be writing just now.
struct LateMeshes {
  /// Asked: if one of these cannot be read, its parts keep the mesh that they had last.
  std::set<std::filesystem::path> mayBeLate;
  /// Answered: those of them that could not be read.
  std::set<std::filesystem::path> late;
  /// How many mistakes were told of them all the same, as there was no mesh before.
  std::size_t mistakes = 0;
};

/// Where meshes come from.
struct MeshSource {
  const MeshReader* reader = nullptr;  ///< Not null.
  unsigned threads = 1;
  MeshMemory* memory = nullptr;        ///< May be null: every file is read.
  /// May be null. Once it is cancelled, reading ends with some problem.
  const WorkMonitor* monitor = nullptr;
  LateMeshes* late = nullptr;  ///< May be null: what cannot be read is a mistake at once.
};

/// The parts of the file, by their position in it, without meshes.
std::vector<Part> loadParts(const AssemblyDocument& document, DocumentProblems& problems);

/// Gives each part the mesh of its stage in use. Each mesh file is read once; parts with the same
/// file, scale and mirror share one mesh.
/// @param folder The assembly file's: mesh paths are relative to it.
void loadMeshes(const AssemblyDocument& document, const std::filesystem::path& folder,
                const MeshSource& source, std::vector<Part>& parts, DocumentProblems& problems);

/// A placement as a rigid pose; tells at `pointer` if its turn is zero.
std::optional<Pose> poseOf(const DocumentPlacement& placement, const std::string& pointer,
                           DocumentProblems& problems);

}  // namespace swingroom
