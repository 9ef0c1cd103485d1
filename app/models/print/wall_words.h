#pragma once

#include <QString>

#include "core/print/process/process.h"
#include "core/print/walls/wall_figures.h"

namespace swingroom {

/// The figure that is shown of a place: proven, nowhere is the piece thinner; where it is thicker
/// than was proven what was reached.
double wallMmOf(const WallMap& map, const WallPlace& place);

/// At the pointer: "neck 1.20 mm", "no wall", "wall 0.83 mm, held on two sides or more; the least
/// that prints so is 0.80 mm" where it is thin enough that how it is held was looked at.
QString wallAtPointer(const WallMap& map, std::size_t place, const PrintProcess& process);

}  // namespace swingroom
