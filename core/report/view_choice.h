#pragma once

#include <array>
#include <functional>
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

/// Whether a shape's surface stands between a place and an eye far off against `towards`.
using HidesPlace =
    std::function<bool(std::size_t shape, const Vector3d& place_W, const Vector3d& towards)>;

/// The same for a caller who has a quicker way to ask (bounding trees).
/// @param shapes  How many there are; `chosen` are two of them.
Vector3d clearestView(std::size_t shapes, const HidesPlace& hides,
                      const std::array<std::size_t, 2>& chosen,
                      const std::array<Vector3d, 2>& points_W,
                      const std::vector<Vector3d>& directions);

}  // namespace swingroom
