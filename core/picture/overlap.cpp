#include "core/picture/overlap.h"

#include <algorithm>
#include <array>

namespace swingroom {
namespace {

/// Surfaces that lie on each other differ by the rounding of files: that is touch, not overlap.
constexpr double kTouchMm = 1e-4;

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

PixelBox boxOf(const SeenSurface& surface, std::size_t shape) {
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
void addCrossings(const SeenSurface& surface, std::size_t shape, int number, const PixelBox& other,
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
    const bool lasts = crossing + 1 != end && (crossing + 1)->depth > crossing->depth + kTouchMm;
    both = both || (lasts && inside[0] != 0 && inside[1] != 0);
  }
  return both && inside[0] == 0 && inside[1] == 0;
}

constexpr int kPeriod = 8;           ///< Of the hatching, pixels along a row.
constexpr double kStroke = 2.2;      ///< Of that, inked.
constexpr double kOutline = 1.4;     ///< Pixels, as wide as the rim.
constexpr float kPaperOver = 0.80F;  ///< How much of what lies behind the hatching is covered.

int outlineSamples(const SampleRows& rows) {
  return static_cast<int>(kOutline * rows.perPixel);
}

}  // namespace

SeenOverlap::SeenOverlap(const SeenSurface& surface, std::size_t a, std::size_t b, const SampleRows& rows)
    : rows_(rows), mask_(rows.size(), 0), top_(rows.count), left_(rows.width) {
  std::vector<Crossing> crossings;
  addCrossings(surface, a, 0, boxOf(surface, b), rows, crossings);
  addCrossings(surface, b, 1, boxOf(surface, a), rows, crossings);
  std::sort(crossings.begin(), crossings.end());
  for (std::size_t i = 0; i < crossings.size();) {
    const std::size_t sample = crossings[i].sample;
    std::size_t end = i;
    while (end < crossings.size() && crossings[end].sample == sample) ++end;
    if (passesBoth(crossings.data() + i, crossings.data() + end)) {
      mask_[sample] = 1;
      const int row = static_cast<int>(sample / static_cast<std::size_t>(rows.width));
      const int column = static_cast<int>(sample % static_cast<std::size_t>(rows.width));
      top_ = std::min(top_, row), bottom_ = std::max(bottom_, row);
      left_ = std::min(left_, column), right_ = std::max(right_, column);
    }
    i = end;
  }
}

bool SeenOverlap::isFarFrom(int row, int column, int side) const {
  const int rim = outlineSamples(rows_);
  return row + side + rim <= top_ || row - rim > bottom_ || column + side + rim <= left_ ||
         column - rim > right_;
}

bool SeenOverlap::inside(int row, int column) const {
  if (row < 0 || row >= rows_.count || column < 0 || column >= rows_.width) return false;
  return mask_[rows_.index(row, column)] != 0;
}

/// Looks in 8 directions.
bool SeenOverlap::anyWithin(int row, int column, int radius, bool wanted) const {
  for (int far = 1; far <= radius; ++far) {
    const int slant = (far * 7 + 5) / 10;
    const std::array<std::array<int, 2>, 8> steps{{{far, 0},
                                                   {-far, 0},
                                                   {0, far},
                                                   {0, -far},
                                                   {slant, slant},
                                                   {slant, -slant},
                                                   {-slant, slant},
                                                   {-slant, -slant}}};
    for (const auto& step : steps) {
      if (inside(row + step[0], column + step[1]) == wanted) return true;
    }
  }
  return false;
}

Paint SeenOverlap::over(const Paint& under, int row, int column) const {
  if (isFarFrom(row, column, 1)) return under;
  const Paint paper = toPaint(kGround);
  Paint vermillion = toPaint(kVermillion);
  const int outline = outlineSamples(rows_);
  if (!inside(row, column))
    return anyWithin(row, column, outline, true) ? mix(under, paper, 0.85F) : under;
  if (anyWithin(row, column, outline, false)) return vermillion;
  const int diagonal = (rows_.first + row + column) % (kPeriod * rows_.perPixel);
  return diagonal < kStroke * rows_.perPixel ? vermillion : mix(under, paper, kPaperOver);
}

}  // namespace swingroom
