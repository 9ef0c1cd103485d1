#pragma once

#include <optional>
#include <string_view>

#include "core/base/outcome.h"

namespace swingroom {

/// What a maker can do about a damaged STEP file.
inline constexpr const char* kExportStepAgain = "export the file again";

/// What is wrong with a STEP file's bytes as far as can be told without understanding them: another
/// kind of file, or one that is cut off.
std::optional<Problem> checkStep(std::string_view bytes);

}  // namespace swingroom
