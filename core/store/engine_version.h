#pragma once

#include <cstdint>
#include <string>

namespace swingroom {

/// Goes into every key. Raise it when a check of the same assembly may come out differently, or the
/// keys or records mean something else, for a reason that is not in the text of the engine: a new
/// way of compiling it, another library, a change in core/store. (A change of the text, core/base
/// to core/sweep, is seen by itself.)
constexpr std::uint32_t kEngineVersion = 1;

/// SHA-256, in hex, of all source files that a check runs through.
std::string engineText();

}  // namespace swingroom
