#pragma once

#include <string>

#include "core/room/space/room_space.h"

namespace swingroom {

/// "the room of head within 5 mm round it, 17.85 cm3, on a grid of 0.25 mm: ..."; what it is, what it leaves away and
/// what it does not say.
std::string roomSentence(const SpaceSubject& subject, const SpaceSettings& settings, const SpaceMesh& space);
/// @param in  The part in whose frame it is; none: the ground's.
std::string sweptSentence(const SpaceSubject& subject, std::optional<PartId> in, const SpaceMesh& space);

}  // namespace swingroom
