#pragma once

#include <array>
#include <vector>

#include "core/picture/picture.h"

namespace swingroom {

/// Ways to look from, the usual three-quarter view first: eyes at eight points round the assembly,
/// a little above and below. Unit, world frame.
std::vector<Vector3d> viewDirections(const Vector3d& up, const Vector3d& front);

/// The first of `directions` that sees the place best: as few surfaces of other parts in front of
/// it as can be had, and the line between the two points not seen end on.
/// @param chosen  Indices of the two shapes that the picture is about.
Vector3d clearestView(const std::vector<PictureShape>& shapes,
                      const std::array<std::size_t, 2>& chosen,
                      const std::array<Vector3d, 2>& points_W,
                      const std::vector<Vector3d>& directions);

}  // namespace swingroom
