#pragma once

#include <string>

#include "core/picture/picture.h"

namespace swingroom {

/// "#RRGGBB" as a colour; a quiet grey for anything else.
Rgb partColour(const std::string& written);

}  // namespace swingroom
