#pragma once

#include "core/files/sources/new_assembly.h"

namespace CLI {
class App;
}

namespace swingroom {

/// What of `new` only STEP files know.
void addStepOptions(CLI::App& make, NewAssemblyWish& wish);

}  // namespace swingroom
