#pragma once

#include "app/models/pair_story.h"

namespace swingroom {

/// What the card says, as lines of plain text to be pasted elsewhere: verdict and pair, figure,
/// where, bounds, joint values, points, who moves, what to shave.
/// @param way  How the way is called: "stand up: tug to deckhand".
QString textOf(const PairStory& story, const QString& way);

}  // namespace swingroom
