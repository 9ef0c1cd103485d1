#pragma once

#include <optional>
#include <string_view>

#include "core/base/outcome.h"

namespace swingroom {

/// Walks a PLY file from its first to its last element: whether all that its header promises is
/// there.
std::optional<Problem> checkPly(std::string_view bytes);

}  // namespace swingroom
