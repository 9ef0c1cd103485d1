#include "core/outline/coverage.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector2d;

/// Where a horizontal line at `y` passes through a triangle; false: it does not.
bool spanAt(const std::array<Vector2d, 3>& triangle, double y, double& from, double& to) {
  bool crosses = false;
  for (std::size_t i = 0; i < 3; ++i) {
    const Vector2d& a = triangle[i];
    const Vector2d& b = triangle[(i + 1) % 3];
    if ((a.y() <= y) == (b.y() <= y)) continue;
    const double x = a.x() + (b.x() - a.x()) * (y - a.y()) / (b.y() - a.y());
    from = crosses ? std::min(from, x) : x;
    to = crosses ? std::max(to, x) : x;
    crosses = true;
  }
  return crosses;
}

/// The middle of the side between two neighbouring places of a square: 0 lower left, then round.
Vector2d sideMiddle(const CoverageGrid& grid, int column, int row, int side) {
  const Vector2d low = grid.middleOf(column, row);
  const double half = grid.cellMm / 2;
  switch (side) {
    case 0:
      return low + Vector2d(half, 0);
    case 1:
      return low + Vector2d(2 * half, half);
    case 2:
      return low + Vector2d(half, 2 * half);
    default:
      return low + Vector2d(0, half);
  }
}

}  // namespace

CoverageGrid gridOver(const Eigen::AlignedBox2d& box, int mostCells) {
  CoverageGrid grid;
  if (box.isEmpty() || mostCells < 8) return grid;
  constexpr int kSpare = 2;
  grid.cellMm = std::max(box.sizes().maxCoeff(), 1e-6) / (mostCells - 2 * kSpare - 1);
  grid.columns = static_cast<int>(std::ceil(box.sizes().x() / grid.cellMm)) + 2 * kSpare;
  grid.rows = static_cast<int>(std::ceil(box.sizes().y() / grid.cellMm)) + 2 * kSpare;
  grid.corner = box.center() - grid.cellMm / 2 * Vector2d(grid.columns, grid.rows);
  return grid;
}

double Coverage::areaMm2() const {
  const auto cells = std::count(inside.begin(), inside.end(), std::uint8_t{1});
  return static_cast<double>(cells) * grid.cellMm * grid.cellMm;
}

Silhouette::Silhouette(const Assembly& assembly, const std::vector<Pose>& X_WPs,
                       const ViewAxes& axes) {
  for (std::size_t p = 0; p < assembly.parts().size(); ++p) {
    const Part& part = assembly.parts()[p];
    if (part.mesh) add(*part.mesh, X_WPs.at(p), axes);
  }
}

Silhouette::Silhouette(const TriangleMesh& mesh_W, const ViewAxes& axes) {
  add(mesh_W, Pose::Identity(), axes);
}

void Silhouette::add(const TriangleMesh& mesh, const Pose& X_WP, const ViewAxes& axes) {
  std::vector<Vector2d> seen;
  seen.reserve(mesh.vertices.size());
  for (const Eigen::Vector3d& p_P : mesh.vertices) {
    seen.push_back(axes.inView(X_WP * p_P));
    box_.extend(seen.back());
  }
  for (const Triangle& triangle : mesh.triangles) {
    triangles_.push_back({seen[triangle[0]], seen[triangle[1]], seen[triangle[2]]});
  }
}

Coverage Silhouette::on(const CoverageGrid& grid) const {
  Coverage coverage;
  coverage.grid = grid;
  coverage.inside.assign(
      static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows), 0);
  const auto cellOf = [&](double mm, double corner) { return (mm - corner) / grid.cellMm - 0.5; };
  for (const auto& triangle : triangles_) {
    const auto [low, high] = std::minmax({triangle[0].y(), triangle[1].y(), triangle[2].y()});
    const int first = std::max(0, static_cast<int>(std::ceil(cellOf(low, grid.corner.y()))));
    const int last =
        std::min(grid.rows - 1, static_cast<int>(std::floor(cellOf(high, grid.corner.y()))));
    for (int row = first; row <= last; ++row) {
      double from = 0, to = 0;
      if (!spanAt(triangle, grid.middleOf(0, row).y(), from, to)) continue;
      const int left = std::max(0, static_cast<int>(std::ceil(cellOf(from, grid.corner.x()))));
      const int right =
          std::min(grid.columns - 1, static_cast<int>(std::floor(cellOf(to, grid.corner.x()))));
      if (left > right) continue;
      const auto start = coverage.inside.begin() + static_cast<std::ptrdiff_t>(row) * grid.columns;
      std::fill(start + left, start + right + 1, std::uint8_t{1});
    }
  }
  return coverage;
}

/// Marching squares with its corners in the middles of cells.
std::vector<OutlineStretch> outlineOf(const Coverage& coverage) {
  // By which corners are inside (bit i: corner i, lower left first, then round): sides from, to.
  static constexpr int kLines[16][4] = {
      {-1, -1, -1, -1}, {0, 3, -1, -1}, {1, 0, -1, -1}, {1, 3, -1, -1},
      {2, 1, -1, -1},   {0, 1, 2, 3},   {2, 0, -1, -1}, {2, 3, -1, -1},
      {3, 2, -1, -1},   {0, 2, -1, -1}, {1, 2, 3, 0},   {1, 2, -1, -1},
      {3, 1, -1, -1},   {0, 1, -1, -1}, {3, 0, -1, -1}, {-1, -1, -1, -1}};
  const CoverageGrid& grid = coverage.grid;
  std::vector<OutlineStretch> stretches;
  for (int row = -1; row < grid.rows; ++row) {
    for (int column = -1; column < grid.columns; ++column) {
      const int corners =
          (coverage.at(column, row) ? 1 : 0) | (coverage.at(column + 1, row) ? 2 : 0) |
          (coverage.at(column + 1, row + 1) ? 4 : 0) | (coverage.at(column, row + 1) ? 8 : 0);
      const auto& lines = kLines[corners];
      for (int i = 0; i < 4 && lines[i] >= 0; i += 2) {
        stretches.push_back(
            {sideMiddle(grid, column, row, lines[i]), sideMiddle(grid, column, row, lines[i + 1])});
      }
    }
  }
  return stretches;
}

}  // namespace swingroom
