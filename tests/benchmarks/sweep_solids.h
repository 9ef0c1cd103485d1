#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "core/mesh/triangle_mesh.h"

/// Closed, welded solids of any number of triangles, for the benchmarks; mm.
namespace swingroom::bench {

/// A block about the origin with rounded edges whose surface goes smoothly in and out, as organic
/// parts do. The same for the same arguments, whatever `triangles`.
struct Bumps {
  std::uint64_t seed = 0;
  double heightMm = 0.25;  ///< About the farthest from the block's face.
};
TriangleMesh bumpyBlock(const Eigen::Vector3d& half, double edgeRadius, std::size_t triangles,
                        const Bumps& bumps);

/// A corner of a turned outline: radius and height.
using TurnedCorner = Eigen::Vector2d;

/// What stands at an angle about the axis in place of the round radius.
using RadiusAt = std::function<double(double radius, double angle)>;

/// A closed ring-like outline, counter-clockwise in (radius, z), turned about z. Its edges are
/// split so that about `triangles` triangles of equal sides come out.
/// @param radiusAt  Changes the round shape: a square outside, a flat.
TriangleMesh turnedRing(const std::vector<TurnedCorner>& outline, int around, std::size_t triangles,
                        const RadiusAt& radiusAt = {});

/// A full pin about z, its radius changed like that of a ring.
TriangleMesh turnedPin(double radius, double low, double high, int around, std::size_t triangles,
                       const RadiusAt& radiusAt = {});

}  // namespace swingroom::bench
