#pragma once

#include <string>

#include "core/files/loading/load_assembly.h"

namespace swingroom {

/// Reads an assembly file to check it: with `stage` in use by all parts that have it, if it is not
/// empty. Detail meshes in use are held against their blocks; what is told of them is among the
/// notes.
Outcome<LoadedAssembly> loadForCheck(const std::string& file, const std::string& stage,
                                     unsigned threads);

}  // namespace swingroom
