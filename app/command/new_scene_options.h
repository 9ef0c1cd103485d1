#pragma once

#include "core/files/sources/new_assembly.h"

namespace CLI {
class App;
}

namespace swingroom {

/// Adds what `new` knows of files with many parts: the moments of their animations that are modes.
void addSceneOptions(CLI::App& make, NewAssemblyWish& wish);

}  // namespace swingroom
