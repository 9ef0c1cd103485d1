#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace swingroom {

/// Text of unknown origin as valid UTF-8 on one line: control characters and broken sequences
/// become
/// '?', and what is longer than `mostBytes` ends in "...".
std::string printable(std::string_view text, std::size_t mostBytes = 300);

}  // namespace swingroom
