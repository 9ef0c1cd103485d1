#pragma once

#include "tests/app/pictures/photographer.h"

namespace swingroom {

/// 780 pairs that all matter, by pair and by part.
void takeNear(Photographer& photographer);

/// The tug's ribbon by part and close up, and kept to the chosen part.
void takeRibbon(Photographer& photographer);

/// The draft's findings searched and sorted, its lists of what is no finding, and the card with its
/// questions open.
void takeFindings(Photographer& photographer);

}  // namespace swingroom
