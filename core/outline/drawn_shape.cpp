#include "core/outline/drawn_shape.h"

#include <array>
#include <cmath>

namespace swingroom {
namespace {

std::size_t indexOf(const DrawnPicture& picture, int column, int row) {
  return static_cast<std::size_t>(row) * static_cast<std::size_t>(picture.width) +
         static_cast<std::size_t>(column);
}

/// Where pixel (0, 0), the upper left one, has its upper left corner.
Eigen::Vector2d cornerOf(const DrawnPicture& picture, const DrawnPlace& place) {
  return place.middle + place.mmPerPixel / 2 * Eigen::Vector2d(-picture.width, picture.height);
}

}  // namespace

std::vector<std::uint8_t> shapeOf(const DrawnPicture& picture, int threshold) {
  std::vector<std::uint8_t> shape(picture.ink.size(), 1);
  std::vector<std::pair<int, int>> reached;
  const auto reach = [&](int column, int row) {
    if (column < 0 || row < 0 || column >= picture.width || row >= picture.height) return;
    const std::size_t pixel = indexOf(picture, column, row);
    if (shape[pixel] == 0 || picture.ink[pixel] >= threshold) return;
    shape[pixel] = 0;
    reached.emplace_back(column, row);
  };
  for (int column = 0; column < picture.width; ++column) {
    reach(column, 0);
    reach(column, picture.height - 1);
  }
  for (int row = 0; row < picture.height; ++row) {
    reach(0, row);
    reach(picture.width - 1, row);
  }
  while (!reached.empty()) {
    const auto [column, row] = reached.back();
    reached.pop_back();
    reach(column - 1, row);
    reach(column + 1, row);
    reach(column, row - 1);
    reach(column, row + 1);
  }
  return shape;
}

Coverage shapeOn(const DrawnPicture& picture, const std::vector<std::uint8_t>& shape,
                 const DrawnPlace& place, const CoverageGrid& grid) {
  Coverage coverage;
  coverage.grid = grid;
  coverage.inside.reserve(static_cast<std::size_t>(grid.columns) *
                          static_cast<std::size_t>(grid.rows));
  const Eigen::Vector2d corner = cornerOf(picture, place);
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const Eigen::Vector2d at = (grid.middleOf(column, row) - corner) / place.mmPerPixel;
      const double x = std::floor(at.x()), y = std::floor(-at.y());
      const bool there = x >= 0 && y >= 0 && x < picture.width && y < picture.height;
      coverage.inside.push_back(
          there && shape[indexOf(picture, static_cast<int>(x), static_cast<int>(y))] ? 1 : 0);
    }
  }
  return coverage;
}

Eigen::AlignedBox2d boxOf(const DrawnPicture& picture, const std::vector<std::uint8_t>& shape,
                          const DrawnPlace& place) {
  Eigen::AlignedBox2d box;
  const Eigen::Vector2d corner = cornerOf(picture, place);
  for (int row = 0; row < picture.height; ++row) {
    for (int column = 0; column < picture.width; ++column) {
      if (!shape[indexOf(picture, column, row)]) continue;
      box.extend(Eigen::Vector2d(corner + place.mmPerPixel * Eigen::Vector2d(column, -row)));
      box.extend(
          Eigen::Vector2d(corner + place.mmPerPixel * Eigen::Vector2d(column + 1, -row - 1)));
    }
  }
  return box;
}

int likelyThreshold(const DrawnPicture& picture) {
  std::array<double, 256> count{};
  double all = 0, sum = 0;
  for (const std::uint8_t ink : picture.ink) {
    count[ink] += 1;
    all += 1;
    sum += ink;
  }
  double below = 0, sumBelow = 0, best = 0, bestFrom = 128, bestTo = 128;
  for (int level = 0; level < 255; ++level) {
    below += count[static_cast<std::size_t>(level)];
    sumBelow += level * count[static_cast<std::size_t>(level)];
    const double above = all - below;
    if (below == 0 || above == 0) continue;
    const double apart = sumBelow / below - (sum - sumBelow) / above;
    const double between = below * above * apart * apart;
    if (between > best * (1 + 1e-12)) best = between, bestFrom = level + 1;
    if (between >= best * (1 - 1e-12)) bestTo = level + 1;  // The middle of an empty valley.
  }
  return static_cast<int>(std::lround((bestFrom + bestTo) / 2));
}

}  // namespace swingroom
