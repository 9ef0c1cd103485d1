#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A triangle that is to be divided along lines on it. Corners and points have numbers of their user's.
struct TriangleToSplit {
  /// Corners and the points on the edges, in order round the triangle.
  std::vector<std::uint32_t> rim;
  /// The lines: from a point of the rim (not a corner) to another, or closed. They do not cross.
  std::vector<std::pair<std::uint32_t, std::uint32_t>> segments;
  /// Where each number is, across the triangle: counter-clockwise as the rim.
  std::function<Eigen::Vector2d(std::uint32_t)> at;
  /// Which of the triangle's three edges a number lies on, a bit each; corners on two.
  std::function<unsigned(std::uint32_t)> edgesAt;
};

/// One of the pieces into which the lines divide it.
struct SplitPiece {
  std::vector<std::pair<std::uint32_t, std::uint32_t>> edges;  ///< Its rims, in its own sense of turning.
  std::vector<Triangle> triangles;
};

/// None if the lines do not divide it cleanly: an end in the middle, a fork, ends that cross.
std::optional<std::vector<SplitPiece>> splitTriangle(const TriangleToSplit& triangle);

}  // namespace swingroom
