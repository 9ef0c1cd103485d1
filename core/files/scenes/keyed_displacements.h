#pragma once

#include <filesystem>
#include <vector>

#include "core/files/scenes/keyed_motion.h"
#include "core/files/sources/given_parts.h"

namespace swingroom {

/// How each part gets from the first station to every other, in the assembly frame, mm: by station
/// after the first, by part.
/// @param parts  As they stand at the first station.
/// @returns Problems for all parts that change their size or shape on the way.
Outcome<std::vector<std::vector<Pose>>> displacementsAt(const KeyedMotion& motion,
                                                        const GivenParts& parts, double mmPerUnit);

}  // namespace swingroom
