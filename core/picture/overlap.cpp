#include "core/picture/overlap.h"

#include <algorithm>
#include <array>

namespace swingroom {
namespace {

struct Crossing {
  std::size_t sample;
  double depth;
  int shape;  ///< 0 or 1.
  int turn;   ///< +1 or -1: the way the surface is turned.

  bool operator<(const Crossing& other) const {
    return sample != other.sample ? sample < other.sample : depth < other.depth;
  }
};

struct PixelBox {
  double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;
  bool misses(const DrawnTriangle& triangle) const {
    const auto& c = triangle.corners;
    return std::max({c[0].x(), c[1].x(), c[2].x()}) < left ||
           std::min({c[0].x(), c[1].x(), c[2].x()}) > right ||
           std::max({c[0].y(), c[1].y(), c[2].y()}) < top ||
           std::min({c[0].y(), c[1].y(), c[2].y()}) > bottom;
  }
};

PixelBox boxOf(const Surface& surface, std::size_t shape) {
  PixelBox box;
  for (std::size_t i = surface.firsts[shape]; i < surface.firsts[shape + 1]; ++i) {
    for (const Vector3d& corner : surface.triangles[i].corners) {
      box.left = std::min(box.left, corner.x());
      box.right = std::max(box.right, corner.x());
      box.top = std::min(box.top, corner.y());
      box.bottom = std::max(box.bottom, corner.y());
    }
  }
  return box;
}

/// Of the samples within `other` only: nothing is common elsewhere.
void addCrossings(const Surface& surface, std::size_t shape, int number, const PixelBox& other,
                  const SampleRows& rows, std::vector<Crossing>& crossings) {
  for (std::size_t i = surface.firsts[shape]; i < surface.firsts[shape + 1]; ++i) {
    if (other.misses(surface.triangles[i])) continue;
    forEachCovered(surface.triangles[i], rows, [&](const Covered& covered) {
      crossings.push_back({covered.index, covered.depth, number, covered.clockwise ? 1 : -1});
    });
  }
}

/// One sample's crossings, nearest first.
bool passesBoth(const Crossing* begin, const Crossing* end) {
  std::array<int, 2> inside{0, 0};
  bool both = false;
  for (const Crossing* crossing = begin; crossing != end; ++crossing) {
    inside[static_cast<std::size_t>(crossing->shape)] += crossing->turn;
    const bool lasts = crossing + 1 != end && (crossing + 1)->depth > crossing->depth;
    both = both || (lasts && inside[0] != 0 && inside[1] != 0);
  }
  return both && inside[0] == 0 && inside[1] == 0;
}

bool maskAt(const std::vector<std::uint8_t>& mask, const SampleRows& rows, int row, int column) {
  if (row < 0 || row >= rows.count || column < 0 || column >= rows.width) return false;
  return mask[rows.index(row, column)] != 0;
}

/// Whether a sample `radius` samples away in one of 8 directions is inside (or is not).
bool anyAround(const std::vector<std::uint8_t>& mask, const SampleRows& rows, int row, int column,
               int radius, bool inside) {
  const int slant = (radius * 7 + 5) / 10;
  const std::array<std::array<int, 2>, 8> steps{{{radius, 0},
                                                 {-radius, 0},
                                                 {0, radius},
                                                 {0, -radius},
                                                 {slant, slant},
                                                 {slant, -slant},
                                                 {-slant, slant},
                                                 {-slant, -slant}}};
  return std::any_of(steps.begin(), steps.end(), [&](const auto& step) {
    return maskAt(mask, rows, row + step[0], column + step[1]) == inside;
  });
}

}  // namespace

std::vector<std::uint8_t> overlapMask(const Surface& surface, std::size_t a, std::size_t b,
                                      const SampleRows& rows) {
  std::vector<Crossing> crossings;
  addCrossings(surface, a, 0, boxOf(surface, b), rows, crossings);
  addCrossings(surface, b, 1, boxOf(surface, a), rows, crossings);
  std::sort(crossings.begin(), crossings.end());
  std::vector<std::uint8_t> mask(rows.size(), 0);
  for (std::size_t i = 0; i < crossings.size();) {
    std::size_t end = i;
    while (end < crossings.size() && crossings[end].sample == crossings[i].sample) ++end;
    mask[crossings[i].sample] = passesBoth(crossings.data() + i, crossings.data() + end);
    i = end;
  }
  return mask;
}

Paint hatched(const Paint& under, const std::vector<std::uint8_t>& mask, const SampleRows& rows,
              int row, int column) {
  constexpr int kPeriod = 7;  // Pixels along a row.
  const Paint vermillion = toPaint(kVermillion);
  const int edge = rows.perPixel + rows.perPixel / 2;
  if (!maskAt(mask, rows, row, column)) {
    for (int radius = 1; radius <= edge; ++radius) {
      if (anyAround(mask, rows, row, column, radius, true))
        return mix(under, toPaint(kGround), 0.85F);
    }
    return under;
  }
  for (int radius = 1; radius <= edge; ++radius) {
    if (anyAround(mask, rows, row, column, radius, false)) return vermillion;
  }
  const int diagonal = (rows.first + row + column) % (kPeriod * rows.perPixel);
  if (diagonal < 2 * rows.perPixel + rows.perPixel / 2) return vermillion;
  return mix(under, toPaint(kGround), 0.72F);
}

}  // namespace swingroom
