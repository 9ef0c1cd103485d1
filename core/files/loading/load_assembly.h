#pragma once

#include <filesystem>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/base/outcome.h"
#include "core/files/loading/load_parts.h"
#include "core/motion/sequence.h"

namespace swingroom {

/// An assembly file, its meshes and everything that it says of motion, ready to be checked.
struct LoadedAssembly {
  Assembly assembly;
  std::vector<Mode> modes;          ///< In file order.
  std::vector<Sequence> sequences;  ///< In file order.
  Problems notes;  ///< Worth knowing, not wrong: health, units, unknown keys, defaults.
};

/// Reads `file` and the meshes that it names. All mistakes come back in one go, each with its JSON
/// pointer as `where` ("FILE#/joints/0/along").
Outcome<LoadedAssembly> loadAssembly(const std::filesystem::path& file, const MeshReader& reader,
                                     unsigned threads);

/// The same of a document that is being edited.
/// @param file  The assembly file that it is, or will be, saved as: mesh paths are relative to it.
Outcome<LoadedAssembly> loadAssembly(const AssemblyDocument& document,
                                     const std::filesystem::path& file, const MeshSource& source);

/// Joints and modes of a document alone: no mesh is read, and what it says of ways, pairs and
/// variants is left out.
Outcome<LoadedAssembly> loadJointsAndModes(const AssemblyDocument& document);

}  // namespace swingroom
