#include "core/print/set/solid_grid.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

struct GridCrossing {
  double z;
  int turn;  // +1: into the material, upwards.
};

/// Columns through the cells' middles, moved by a little so that they meet no edge of a part that
/// is drawn on a raster.
class GridColumns {
 public:
  explicit GridColumns(SolidGrid& grid)
      : grid_(grid), crossings_(grid.counts[0] * grid.counts[1]) {}

  void add(const Vector3d& a, const Vector3d& b, const Vector3d& c) {
    const double area = cross(b - a, c - a);
    if (area == 0) return;
    const auto [x0, x1] = range(0, a, b, c);
    const auto [y0, y1] = range(1, a, b, c);
    for (long y = y0; y <= y1; ++y) {
      for (long x = x0; x <= x1; ++x) {
        const Vector3d p = column(x, y);
        const double u = cross(b - p, c - p) / area, v = cross(c - p, a - p) / area;
        if (u < 0 || v < 0 || u + v > 1) continue;
        const double z = u * a.z() + v * b.z() + (1 - u - v) * c.z();
        crossings_[static_cast<std::size_t>(y) * grid_.counts[0] + static_cast<std::size_t>(x)]
            .push_back({z, area < 0 ? 1 : -1});
      }
    }
  }

  void fill() {
    for (std::size_t y = 0; y < grid_.counts[1]; ++y) {
      for (std::size_t x = 0; x < grid_.counts[0]; ++x) {
        auto& line = crossings_[y * grid_.counts[0] + x];
        std::sort(line.begin(), line.end(),
                  [](const GridCrossing& a, const GridCrossing& b) { return a.z < b.z; });
        int winding = 0;
        std::size_t next = 0;
        for (std::size_t z = 0; z < grid_.counts[2]; ++z) {
          const double middle = grid_.low_B.z() + (static_cast<double>(z) + 0.5) * grid_.cellMm;
          while (next < line.size() && line[next].z <= middle) winding += line[next++].turn;
          if (winding > 0) grid_.full[grid_.at(x, y, z)] = 1;
        }
      }
    }
  }

 private:
  static double cross(const Vector3d& a, const Vector3d& b) {
    return a.x() * b.y() - a.y() * b.x();
  }
  Vector3d column(long x, long y) const {
    return grid_.low_B + grid_.cellMm * Vector3d(static_cast<double>(x) + 0.5 + 0.0007131,
                                                 static_cast<double>(y) + 0.5 - 0.0003777, 0);
  }
  std::pair<long, long> range(int d, const Vector3d& a, const Vector3d& b,
                              const Vector3d& c) const {
    const double low = std::min({a[d], b[d], c[d]}) - grid_.low_B[d];
    const double high = std::max({a[d], b[d], c[d]}) - grid_.low_B[d];
    const long last = static_cast<long>(grid_.counts[static_cast<std::size_t>(d)]) - 1;
    return {std::clamp(static_cast<long>(std::floor(low / grid_.cellMm - 0.51)), 0L, last),
            std::clamp(static_cast<long>(std::ceil(high / grid_.cellMm - 0.49)), 0L, last)};
  }

  SolidGrid& grid_;
  std::vector<std::vector<GridCrossing>> crossings_;
};

}  // namespace

Vector3d SolidGrid::middleOf(std::size_t cell) const {
  const std::size_t x = cell % counts[0], y = cell / counts[0] % counts[1],
                    z = cell / counts[0] / counts[1];
  return low_B + cellMm * Vector3d(static_cast<double>(x) + 0.5, static_cast<double>(y) + 0.5,
                                   static_cast<double>(z) + 0.5);
}

SolidGrid solidGrid(const TriangleMesh& mesh, const Eigen::Matrix3d& R_BP, double cellMm) {
  SolidGrid grid;
  grid.cellMm = cellMm;
  std::vector<Vector3d> corners;
  Eigen::AlignedBox3d box;
  for (const Vector3d& p : mesh.vertices) {
    corners.emplace_back(R_BP * p);
    box.extend(corners.back());
  }
  if (box.isEmpty()) return grid;
  const Vector3d size = box.sizes();
  for (int d = 0; d < 3; ++d) {
    grid.counts[static_cast<std::size_t>(d)] =
        2 + static_cast<std::size_t>(std::max(1.0, std::ceil(size[d] / cellMm)));
    const double cells = static_cast<double>(grid.counts[static_cast<std::size_t>(d)]);
    grid.low_B[d] = box.center()[d] - cells * cellMm / 2;
  }
  grid.full.assign(grid.counts[0] * grid.counts[1] * grid.counts[2], 0);
  GridColumns columns(grid);
  for (const Triangle& t : mesh.triangles) columns.add(corners[t[0]], corners[t[1]], corners[t[2]]);
  columns.fill();
  return grid;
}

}  // namespace swingroom
