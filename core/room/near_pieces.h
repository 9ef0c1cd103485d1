#pragma once

#include <cstdint>
#include <vector>

#include "core/base/transform.h"
#include "core/proximity/solid.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// Pieces, by their tree's order, that are nearer to the other surface than `withinMm`, ascending.
/// @param X_OP  Pose of the pieces in the other surface's frame.
std::vector<std::uint32_t> piecesNear(const BoundingTree& pieces, const BoundingTree& other, const Pose& X_OP,
                                      double withinMm);

/// By the pieces' order: which of them lie, or may in part lie, on the surface, which is in their frame.
std::vector<bool> piecesOnSurface(const BoundingTree& pieces, const BoundingTree& surface);

/// Pieces, ascending, whose middle is in the other part's material.
std::vector<std::uint32_t> piecesInside(const BoundingTree& pieces, const Solid& other, const Pose& X_OP);

}  // namespace swingroom
