#pragma once

#include <cstdint>
#include <vector>

#include "core/room/space/space_regions.h"

namespace swingroom {

/// The surface between nodes of regions and others, which runs through the tetrahedra of the lattice: closed,
/// manifold, without crossings.
struct LatticeSurface {
  TriangleMesh mesh;                   ///< Faces look away from the regions.
  std::vector<std::uint32_t> regions;  ///< By triangle: which region it bounds.
  std::vector<float> spareMm;          ///< By corner: see EdgePoint.
};

/// After a cancel what is returned means nothing.
LatticeSurface surfaceOf(const SpaceValues& values, const SpaceRegions& regions, unsigned threads,
                         StageProgress& progress);

}  // namespace swingroom
