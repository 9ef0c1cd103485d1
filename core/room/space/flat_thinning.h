#pragma once

#include "core/room/space/lattice_surface.h"

namespace swingroom {

struct ThinningBounds {
  double outMm = 0, inMm = 0;
};

/// Takes corners out of the flat and evenly curved parts of a closed, manifold surface, which stays that. What the new
/// surface holds reaches beyond what the old one did by at most `outMm`, and falls short of it by at most `inMm`, each
/// with what spare its corners there had.
void thinFlats(LatticeSurface& surface, const ThinningBounds& bounds, const WorkMonitor& monitor);

}  // namespace swingroom
