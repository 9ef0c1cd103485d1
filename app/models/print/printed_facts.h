#pragma once

#include "app/models/pair_story.h"
#include "app/session/print/print_board.h"

namespace swingroom {

/// What is known of a pair's gap as printed, and with play; empty: nothing of it as it is now.
/// @param pair  Of the open scene.
std::vector<PairStory::Fact> printedFacts(const PrintBoard& board, const PartPair& pair);

}  // namespace swingroom
