#pragma once

#include <vector>

#include "core/sweep/track.h"

namespace swingroom {

/// Pieces of several tracks over one another: at each instant the worst (clash, tight, unproven, clear).
/// Instants that no piece covers are left out. Neighbours of one standing are joined.
std::vector<TrackPiece> worstOf(const std::vector<TrackPiece>& pieces);

/// The instants between 0 and 1 at which no piece of `pieces` stands at clash, as runs [from, to].
std::vector<TrackPiece> withoutClash(const std::vector<TrackPiece>& pieces);

}  // namespace swingroom
