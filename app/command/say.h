#pragma once

#include "core/base/outcome.h"

namespace swingroom {

/// One line on standard error: where: what (hint).
void say(const Problem& problem);

/// All of them. @returns The exit status of a command that could not do its work: 2.
int fail(const Problems& problems);

}  // namespace swingroom
