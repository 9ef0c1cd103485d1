#pragma once

#include <vector>

#include "core/rigging/rig_suggestion.h"

namespace swingroom {

/// Holes of two or more parts on one axis in which no pin stands, and plain pins that fit: see
/// `SuggestedPin`. A pin is centred on the part between the others (a lug between cheeks), its
/// head, if any, to the nearer end.
std::vector<SuggestedPin> pinPlacesOf(const std::vector<RigPart>& parts);

}  // namespace swingroom
