#pragma once

#include <cstdint>
#include <vector>

#include "core/print/set/stand_shape.h"

namespace swingroom {

/// Of faces that look down, by triangle: which are held at both ends. Of a connected piece of them
/// each triangle whose middle has, to both sides along one horizontal line, an edge below which the
/// part goes on before it has one where it ends, at most `spanMm` from one to the other. The line
/// is at right angles to one of the six longest ways of such edges.
/// @param down_P    Unit: to the bed, in the part's frame.
/// @param overhang  By triangle: it needs support if it is no bridge.
std::vector<bool> bridgesOf(const StandShape& shape, const Vector3d& down_P,
                            const std::vector<bool>& overhang, double spanMm);

}  // namespace swingroom
