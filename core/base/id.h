#pragma once

#include <compare>
#include <cstddef>
#include <functional>

namespace swingroom {

/// Position in one of an assembly's lists, of a type of its own so that lists are not mixed up.
template <typename Tag>
struct Id {
  std::size_t index = 0;

  auto operator<=>(const Id&) const = default;
};

using PartId = Id<struct PartTag>;
using JointId = Id<struct JointTag>;
using ModeId = Id<struct ModeTag>;

}  // namespace swingroom
