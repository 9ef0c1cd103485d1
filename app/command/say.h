#pragma once

#include "core/base/outcome.h"

namespace swingroom {

/// One line on standard error: where: what (hint).
void say(const Problem& problem);

}  // namespace swingroom
