#pragma once

#include "core/files/sources/new_assembly.h"

namespace CLI {
class App;
}

namespace swingroom {

/// What of `new` holds for every kind of source: the unit, the ground, the required gap, threads.
/// Options that only one kind knows are added by a function of their own beside this one (new_...).
void addSharedOptions(CLI::App& make, NewAssemblyWish& wish);

}  // namespace swingroom
