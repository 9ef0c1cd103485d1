#pragma once

#include <vector>

#include "core/room/space/room_space.h"

namespace swingroom {

/// Parts with which the part as it is does not pass, or is not proven to: in the order of their ids.
/// After a cancel what is returned means nothing.
std::vector<PartId> objectionsTo(const SpaceSubject& subject, unsigned threads, const WorkMonitor& monitor);

}  // namespace swingroom
