#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/tree/bounding_tree.h"

namespace swingroom {

/// Which triangles of a surface meet along an edge, and how far from convex two of them are together.
class WallNeighbours {
 public:
  /// The triangle across an edge.
  struct Neighbour {
    std::uint32_t triangle = kNone;
    /// No point of the convex hull of the two is farther than this from them: the distance of the
    /// common edge from the segment between the two other corners.
    double hollowMm = 0;
  };
  static constexpr std::uint32_t kNone = 0xffffffff;

  explicit WallNeighbours(const BoundingTree& surface);

  /// Across the edges that start at corners 0, 1 and 2. By index into `surface.triangles()`.
  const std::array<Neighbour, 3>& of(std::uint32_t triangle) const { return neighbours_[triangle]; }

 private:
  std::vector<std::array<Neighbour, 3>> neighbours_;
};

}  // namespace swingroom
