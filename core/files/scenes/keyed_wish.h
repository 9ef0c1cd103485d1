#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/outcome.h"

namespace swingroom {

/// A mode that is one moment of a file's animations.
struct KeyedModeWish {
  std::string name;
  std::optional<std::string> animation;  ///< None: all of the file together.
  std::optional<double> timeS;           ///< None: the animation's last key.

  bool operator==(const KeyedModeWish&) const = default;
};

/// Wishes as they are typed, apart by commas: NAME=TIME in seconds, NAME=ANIMATION,
/// NAME=ANIMATION@TIME, or NAME alone for the animation that is called so.
/// @returns Problems for two modes of one name or an empty name.
Outcome<std::vector<KeyedModeWish>> readKeyedWishes(const std::string& typed);

}  // namespace swingroom
