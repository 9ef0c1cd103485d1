#pragma once

#include "core/files/sources/given_parts.h"
#include "core/files/sources/new_assembly.h"
#include "core/files/sources/part_folder.h"

namespace swingroom {

/// The parts of a folder or of one file, whichever stands there, with numbers without a unit as mm.
Outcome<GivenParts> readGivenParts(const std::filesystem::path& source, const MeshReader& reader,
                                   unsigned threads, const PartChoice& choice = {});

/// `newAssembly` of a source that gives parts and where they stand, and nothing of joints: a folder
/// or a scene.
Outcome<NewAssembly> newFromParts(const NewAssemblyWish& wish, const MeshReader& reader);

}  // namespace swingroom
