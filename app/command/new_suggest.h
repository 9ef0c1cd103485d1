#pragma once

#include <string>
#include <vector>

#include "core/files/sources/new_assembly.h"

namespace CLI {
class App;
}

namespace swingroom {

/// Which suggestions `new` accepts, all of a kind or none.
struct SuggestWish {
  bool pins = false, joints = false, zones = false;

  bool any() const { return pins || joints || zones; }
};

/// `--suggest pins,joints,zones`
void addSuggestOption(CLI::App& make, SuggestWish& wish);

/// Accepts what the parts suggest as they stand in the first mode: pins into empty holes, then
/// joints for parts that have none, zones and fits where pins are in holes.
/// @param made  Its files are written already; gains what was accepted, each with its reason.
/// @returns What is wrong; then `made` is as it was.
Problems acceptSuggestions(const SuggestWish& wish, const NewAssemblyWish& source,
                           NewAssembly& made);

}  // namespace swingroom
