#pragma once

#include "core/files/new_assembly.h"

namespace swingroom {

/// `newAssembly` of a source that gives parts and where they stand, and nothing of joints: a folder
/// or a scene.
Outcome<NewAssembly> newFromParts(const NewAssemblyWish& wish, const MeshReader& reader);

}  // namespace swingroom
