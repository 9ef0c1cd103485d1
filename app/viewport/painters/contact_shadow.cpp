#include "app/viewport/painters/contact_shadow.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

constexpr int kSide = ShadowGrid::kCells;
constexpr double kReach = 1.6;  ///< The square's half side, in radii of what is shown.
constexpr double kFadeHeight =
    0.10;  ///< Height at which a point's shadow is down to 1/e, in radii.
constexpr double kStrength = 1.1;

/// Mean over a window along rows, `stride` 1, or columns.
void blurAlong(std::vector<float>& grid, int stride, int otherStride, int half) {
  std::vector<float> line(kSide);
  for (int row = 0; row < kSide; ++row) {
    float* cells = grid.data() + row * otherStride;
    float sum = 0;
    for (int i = 0; i < half; ++i) sum += cells[i * stride];
    for (int i = 0; i < kSide; ++i) {
      if (i + half < kSide) sum += cells[(i + half) * stride];
      if (i - half - 1 >= 0) sum -= cells[(i - half - 1) * stride];
      line[static_cast<std::size_t>(i)] = sum / static_cast<float>(2 * half + 1);
    }
    for (int i = 0; i < kSide; ++i) cells[i * stride] = line[static_cast<std::size_t>(i)];
  }
}

/// Shares of a point among the four cells round it, so that the shadow moves as smoothly as the
/// part.
void splat(std::vector<float>& grid, const Eigen::Vector2d& cell, float weight) {
  const double x = cell.x() - 0.5, y = cell.y() - 0.5;
  const int column = static_cast<int>(std::floor(x)), row = static_cast<int>(std::floor(y));
  if (column < 0 || row < 0 || column + 1 >= kSide || row + 1 >= kSide) return;
  const auto u = static_cast<float>(x - column), v = static_cast<float>(y - row);
  float* first = grid.data() + row * kSide + column;
  first[0] += weight * (1 - u) * (1 - v);
  first[1] += weight * u * (1 - v);
  first[kSide] += weight * (1 - u) * v;
  first[kSide + 1] += weight * u * v;
}

}  // namespace

ShadowGrid contactShadow(const std::vector<PlacedMesh>& meshes, const FloorFrame& floor,
                         const ViewBounds& bounds) {
  ShadowGrid shadow;
  shadow.sideMm = 2 * kReach * bounds.radiusMm;
  if (!(shadow.sideMm > 0)) return shadow;
  const Eigen::Vector2d half = Eigen::Vector2d::Constant(0.5 * shadow.sideMm);
  shadow.corner = floor.place(bounds.centre_W) - half;
  const double cellsPerMm = kSide / shadow.sideMm, fadeMm = kFadeHeight * bounds.radiusMm;
  std::vector<float> grid(kSide * kSide, 0.0F);
  for (const PlacedMesh& placed : meshes) {
    const Pose X_WM = placed.X_WP * translation(placed.mesh->middle);
    const double area = placed.mesh->sampleMm2 * cellsPerMm * cellsPerMm;
    for (const Eigen::Vector3f& sample : placed.mesh->samples) {
      const Vector3d p_W = X_WM * sample.cast<double>();
      const double weight = area * std::exp(-std::abs(floor.above(p_W)) / fadeMm);
      splat(grid, (floor.place(p_W) - shadow.corner) * cellsPerMm, static_cast<float>(weight));
    }
  }
  for (const int reach : {3, 2, 2}) {
    blurAlong(grid, 1, kSide, reach);
    blurAlong(grid, kSide, 1, reach);
  }
  shadow.darkness.reserve(grid.size());
  for (const float sum : grid) {
    shadow.darkness.push_back(static_cast<std::uint8_t>(255 * (1 - std::exp(-kStrength * sum))));
  }
  return shadow;
}

}  // namespace swingroom
