#pragma once

#include <QString>

#include "core/print/walls/wall_figures.h"

namespace swingroom {

/// The figure that is shown of a place: proven, nowhere is the piece thinner; where it is thicker
/// than was proven what was reached.
double wallMmOf(const WallMap& map, const WallPlace& place);

/// At the pointer: "wall 0.83 mm", "neck 1.20 mm", "no wall".
QString wallAtPointer(const WallMap& map, std::size_t place);

}  // namespace swingroom
