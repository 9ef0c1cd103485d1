#pragma once

#include "core/room/space/lattice_surface.h"

namespace swingroom {

/// Takes corners out of the flat parts of a closed, manifold surface, which stays that. Nothing of the new
/// surface is farther than `withinMm` from the old one, and what spare its corners there had.
void thinFlats(LatticeSurface& surface, double withinMm, const WorkMonitor& monitor);

}  // namespace swingroom
