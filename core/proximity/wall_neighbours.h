#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/tree/bounding_tree.h"

namespace swingroom {

/// Which triangles of a surface meet along an edge, and how far from convex two of them are
/// together.
class WallNeighbours {
 public:
  /// The triangle across an edge, and which of its corners is not on that edge.
  struct Neighbour {
    std::uint32_t triangle = kNone;
    std::uint32_t apex = 0;
  };
  static constexpr std::uint32_t kNone = 0xffffffff;

  explicit WallNeighbours(const BoundingTree& surface);

  /// Across the edges that start at corners 0, 1 and 2. By index into `surface.triangles()`.
  const std::array<Neighbour, 3>& of(std::uint32_t triangle) const { return neighbours_[triangle]; }

  /// No point of the convex hull of a triangle and its neighbour is farther than this from them:
  /// the distance of the common edge, which starts at `corner`, from the segment between the two
  /// others.
  static double hollowMm(const TriangleCorners& triangle, std::size_t corner,
                         const TriangleCorners& neighbour, std::size_t apex);

 private:
  std::vector<std::array<Neighbour, 3>> neighbours_;
};

}  // namespace swingroom
