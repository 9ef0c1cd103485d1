#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/outcome.h"

namespace swingroom {

/// Why the text cannot be read as JSON of which each key has one meaning: broken, nested deeper
/// than 64 levels, a number that is too large, or a key twice in one object. Nothing: it can.
std::optional<Problem> tablesFormProblem(std::string_view text, const std::string& name);

}  // namespace swingroom
