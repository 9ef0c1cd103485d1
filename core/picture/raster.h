#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "core/picture/surface.h"

namespace swingroom {

/// Rows of samples of a picture: `perPixel` of them along each side of a pixel.
struct SampleRows {
  int width = 0;  ///< Samples in a row.
  int first = 0;  ///< Number of the first row.
  int count = 0;  ///< Rows.
  int perPixel = 1;

  double x(int column) const { return (column + 0.5) / perPixel; }
  double y(int row) const { return (first + row + 0.5) / perPixel; }
  std::size_t index(int row, int column) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(width) +
           static_cast<std::size_t>(column);
  }
  std::size_t size() const {
    return static_cast<std::size_t>(width) * static_cast<std::size_t>(count);
  }
};

/// An edge of a triangle in the picture. The side of a point is computed from the same end
/// whichever triangle asks, and a point on the line counts to one side: of two triangles that share
/// the edge, exactly one covers it. So closed surfaces are entered as often as they are left.
struct PictureEdge {
  Eigen::Vector2d from, along;
  bool turned = false;

  PictureEdge(const Vector3d& a, const Vector3d& b) {
    turned = b.x() < a.x() || (b.x() <= a.x() && b.y() < a.y());
    const Vector3d& low = turned ? b : a;
    const Vector3d& high = turned ? a : b;
    from = low.head<2>();
    along = high.head<2>() - low.head<2>();
  }
  double cross(double x, double y) const {
    return along.x() * (y - from.y()) - along.y() * (x - from.x());
  }
};

/// Where a triangle covers a sample.
struct Covered {
  std::size_t index = 0;          ///< Among the rows' samples.
  double depth = 0;               ///< mm.
  std::array<double, 3> weights;  ///< Of the corners.
  bool clockwise = false;         ///< As seen in the picture.
};

inline std::array<PictureEdge, 3> edgesOf(const DrawnTriangle& triangle) {
  const auto& c = triangle.corners;
  return {PictureEdge(c[0], c[1]), PictureEdge(c[1], c[2]), PictureEdge(c[2], c[0])};
}

/// Whether the triangle covers (x, y), and how.
inline bool covers(const DrawnTriangle& triangle, const std::array<PictureEdge, 3>& edges, double x,
                   double y, Covered& covered) {
  const std::array<double, 3> crosses{edges[0].cross(x, y), edges[1].cross(x, y),
                                      edges[2].cross(x, y)};
  const bool left = (crosses[0] >= 0) != edges[0].turned;
  if (((crosses[1] >= 0) != edges[1].turned) != left ||
      ((crosses[2] >= 0) != edges[2].turned) != left)
    return false;
  const double sum = std::abs(crosses[0]) + std::abs(crosses[1]) + std::abs(crosses[2]);
  if (!(sum > 0)) return false;
  // Edge k runs from corner k to the next: it lies opposite to the one after that.
  covered.weights = {std::abs(crosses[1]) / sum, std::abs(crosses[2]) / sum,
                     std::abs(crosses[0]) / sum};
  covered.depth = covered.weights[0] * triangle.corners[0].z() +
                  covered.weights[1] * triangle.corners[1].z() +
                  covered.weights[2] * triangle.corners[2].z();
  covered.clockwise = left;
  return true;
}

/// Numbers of the samples between two coordinates, pixels, or one beyond: rounding must lose none.
inline std::pair<int, int> samplesBetween(double low, double high, int perPixel, int first,
                                          int count) {
  const double slack = 1e-6 + 1e-11 * (std::abs(low) + std::abs(high));
  const double from = std::ceil((low - slack) * perPixel - 0.5) - first;
  const double to = std::floor((high + slack) * perPixel - 0.5) - first;
  return {static_cast<int>(std::clamp<double>(from, 0, count)),
          static_cast<int>(std::clamp<double>(to, -1, count - 1))};
}

/// First and last column that `triangle` may cover in the row at `y`.
inline std::pair<int, int> columnsIn(const DrawnTriangle& triangle, const SampleRows& rows,
                                     double y) {
  double low = 1e300, high = -1e300;
  for (std::size_t k = 0; k < 3; ++k) {
    const Vector3d& a = triangle.corners[k];
    const Vector3d& b = triangle.corners[k < 2 ? k + 1 : 0];
    if ((a.y() < y && b.y() < y) || (a.y() > y && b.y() > y)) continue;
    const double rise = b.y() - a.y();
    const bool level = !(std::abs(rise) > 0);
    const double x = level ? b.x() : a.x() + (y - a.y()) / rise * (b.x() - a.x());
    low = std::min(low, level ? std::min(a.x(), x) : x);
    high = std::max(high, level ? std::max(a.x(), x) : x);
  }
  return samplesBetween(low, high, rows.perPixel, 0, rows.width);
}

/// Calls `use(const Covered&)` for each sample of `rows` that `triangle` covers, seen from either
/// side.
template <typename Use>
void forEachCovered(const DrawnTriangle& triangle, const SampleRows& rows, Use&& use) {
  const auto& c = triangle.corners;
  const auto [top, bottom] = std::minmax({c[0].y(), c[1].y(), c[2].y()});
  const auto [begin, last] = samplesBetween(top, bottom, rows.perPixel, rows.first, rows.count);
  if (begin > last) return;
  const std::array<PictureEdge, 3> edges = edgesOf(triangle);
  Covered covered;
  for (int row = begin; row <= last; ++row) {
    const double y = rows.y(row);
    const auto [left, right] = columnsIn(triangle, rows, y);
    for (int column = left; column <= right; ++column) {
      if (!covers(triangle, edges, rows.x(column), y, covered)) continue;
      covered.index = rows.index(row, column);
      use(covered);
    }
  }
}

/// What is nearest to the eye at each sample.
struct Layer {
  static constexpr std::uint32_t kNothing = 0xFFFFFFFF;
  std::vector<double> depths;
  std::vector<std::uint32_t> triangles;
};

/// The nearest of the shapes for which `clear` is as asked. Of two at one depth the earlier shape
/// is seen.
Layer nearestLayer(const SeenSurface& surface, const std::vector<PictureShape>& shapes, bool clear,
                   const SampleRows& rows, double pixelsPerMm);

}  // namespace swingroom
