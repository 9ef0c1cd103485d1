#pragma once

#include <vector>

#include "tests/support/shapes.h"

namespace swingroom {

/// A body of revolution about z: `outline` in (r, z), counter-clockwise seen with r to the right
/// and z up, closed from its last corner to its first; corners on the circles, the first at angle
/// 0.
/// @param turnRad  Less than a whole turn: a sector without end faces, thus open.
TriangleMesh lathed(const std::vector<Eigen::Vector2d>& outline, int sides,
                    double turnRad = 2 * kPi);

/// Corners on a circle about (0, 0) of (r, z) from height `from` to `to`.
std::vector<Eigen::Vector2d> arc(double radius, double from, double to, int pieces);

/// A box with a ball's socket of radius `socket` about the origin, open to +z, whose rim is at
/// height `lip`; 8 mm in radius, 8 deep.
TriangleMesh socketWithLip(double socket, double lip, int sides, double turnRad = 2 * kPi);

}  // namespace swingroom
