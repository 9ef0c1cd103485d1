#pragma once

namespace swingroom {

/// Prints what painting the gap ribbon takes with 780 pairs that all matter, by pair and by part,
/// the whole way and close up, and one move of the needle.
void printRibbonPace();

}  // namespace swingroom
