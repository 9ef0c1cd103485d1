#include "core/proximity/wall_neighbours.h"

#include <algorithm>
#include <numeric>

namespace swingroom {
namespace {

struct Edge {
  std::uint32_t low, high;  ///< Corner numbers.
  std::uint32_t triangle;
  std::uint8_t corner;  ///< Where it starts.
};

/// Numbers corners so that equal places have equal numbers.
std::vector<std::uint32_t> numberCorners(const std::vector<TriangleCorners>& triangles) {
  const auto place = [&](std::uint32_t i) -> const Eigen::Vector3d& {
    return triangles[i / 3][i % 3];
  };
  std::vector<std::uint32_t> order(3 * triangles.size());
  std::iota(order.begin(), order.end(), 0u);
  std::sort(order.begin(), order.end(), [&](std::uint32_t i, std::uint32_t j) {
    const Eigen::Vector3d &a = place(i), &b = place(j);
    return std::lexicographical_compare(a.data(), a.data() + 3, b.data(), b.data() + 3);
  });
  std::vector<std::uint32_t> numbers(order.size());
  std::uint32_t number = 0;
  for (std::size_t k = 0; k < order.size(); ++k) {
    if (k > 0 && place(order[k]) != place(order[k - 1])) ++number;
    numbers[order[k]] = number;
  }
  return numbers;
}

}  // namespace

WallNeighbours::WallNeighbours(const BoundingTree& surface) {
  const auto& triangles = surface.triangles();
  neighbours_.resize(triangles.size());
  const std::vector<std::uint32_t> numbers = numberCorners(triangles);
  std::vector<Edge> edges;
  edges.reserve(numbers.size());
  for (std::uint32_t t = 0; t < triangles.size(); ++t) {
    for (std::uint8_t c = 0; c < 3; ++c) {
      const auto [low, high] = std::minmax(numbers[3 * t + c], numbers[3 * t + (c + 1) % 3]);
      edges.push_back({low, high, t, c});
    }
  }
  std::sort(edges.begin(), edges.end(), [](const Edge& a, const Edge& b) {
    return std::tie(a.low, a.high, a.triangle, a.corner) <
           std::tie(b.low, b.high, b.triangle, b.corner);
  });
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    const Edge &a = edges[i], &b = edges[i + 1];
    // Of three and more at one edge any two will do.
    if (a.low != b.low || a.high != b.high || a.triangle == b.triangle) continue;
    const TriangleCorners &ta = triangles[a.triangle], &tb = triangles[b.triangle];
    const double hollowMm =
        closestBetweenSegments(ta[a.corner], ta[(a.corner + 1) % 3], ta[(a.corner + 2) % 3],
                               tb[(b.corner + 2) % 3])
            .distanceMm;
    neighbours_[a.triangle][a.corner] = {b.triangle, hollowMm};
    neighbours_[b.triangle][b.corner] = {a.triangle, hollowMm};
  }
}

}  // namespace swingroom
