#pragma once

#include <vector>

#include "core/print/walls/wall_figures.h"
#include "core/print/walls/wall_surface.h"

namespace swingroom {

/// Merges thin places into walls and necks, thinnest first, and says so in `places`: their spot,
/// necks by their kind, low reliefs as `none`.
std::vector<ThinSpot> thinSpots(const WallSurface& surface, double mostMm, unsigned threads,
                                std::vector<WallPlace>& places);

/// Runs of blades of 2 mm or more, longest first.
std::vector<BladeEdge> bladeEdges(const WallSurface& surface);

}  // namespace swingroom
