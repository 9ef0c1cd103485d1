#pragma once

#include "app/models/history/change_lines.h"
#include "app/session/session.h"

namespace swingroom {

/// Stands where the line's pair is worst, with the pair chosen.
/// @returns Whether there are such parts and such a way now.
bool goToLine(Session& session, const ChangeLine& line);

}  // namespace swingroom
