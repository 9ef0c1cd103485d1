#include "core/picture/lines.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/transform.h"
#include "core/picture/smoothing.h"

namespace swingroom {
namespace {

constexpr float kOutlineInk = 0.92F;
constexpr float kCreaseInk = 0.55F;
constexpr float kPaleInk = 0.42F;  ///< Of a line that has pale shapes only beside it.

/// Marks the lines between neighbouring samples: creases one sample to each side, outlines two.
class LineFinder {
 public:
  LineFinder(const Layer& layer, const SeenSurface& surface, const std::vector<PictureShape>& shapes,
             const SampleRows& rows, double pixelsPerMm)
      : layer_(layer),
        surface_(surface),
        shapes_(shapes),
        rows_(rows),
        pitchMm_(1 / pixelsPerMm / rows.perPixel),
        strengths_(rows.size(), 0.0F) {}

  std::vector<float> find() && {
    for (int row = 0; row < rows_.count; ++row) {
      for (int column = 0; column < rows_.width; ++column) {
        if (column + 1 < rows_.width) lookBetween(row, column, row, column + 1);
        if (row + 1 < rows_.count) lookBetween(row, column, row + 1, column);
      }
    }
    return std::move(strengths_);
  }

 private:
  void lookBetween(int row, int column, int otherRow, int otherColumn) {
    const std::size_t here = rows_.index(row, column), there = rows_.index(otherRow, otherColumn);
    const std::uint32_t i = layer_.triangles[here], j = layer_.triangles[there];
    if (i == j) return;
    const DrawnTriangle* a = i == Layer::kNothing ? nullptr : &surface_.triangles[i];
    const DrawnTriangle* b = j == Layer::kNothing ? nullptr : &surface_.triangles[j];
    const bool pale = (!a || shapes_[a->shape].pale) && (!b || shapes_[b->shape].pale);
    const float ink = pale ? kPaleInk : 1.0F;
    const Eigen::Vector2d step =
        Eigen::Vector2d(otherColumn - column, otherRow - row) / rows_.perPixel;
    if (!a || !b || a->shape != b->shape ||
        isJump(*a, *b, layer_.depths[there] - layer_.depths[here], step)) {
      markRound(row, column, kOutlineInk * ink);
      markRound(otherRow, otherColumn, kOutlineInk * ink);
    } else if (a->face != b->face && a->flat_W.dot(b->flat_W) < creaseCosine_) {
      mark(row, column, kCreaseInk * ink);
      mark(otherRow, otherColumn, kCreaseInk * ink);
    }
  }

  /// Whether neither plane, carried on, meets the other sample.
  bool isJump(const DrawnTriangle& a, const DrawnTriangle& b, double rise,
              const Eigen::Vector2d& step) const {
    const double missed =
        std::min(std::abs(rise - a.slope.dot(step)), std::abs(rise - b.slope.dot(step)));
    const double flatter = std::min(a.slope.squaredNorm(), b.slope.squaredNorm());
    return missed > pitchMm_ * 2 + std::sqrt(flatter) * step.norm();
  }

  void markRound(int row, int column, float strength) {
    mark(row, column, strength);
    mark(row - 1, column, strength);
    mark(row + 1, column, strength);
    mark(row, column - 1, strength);
    mark(row, column + 1, strength);
  }

  void mark(int row, int column, float strength) {
    if (row < 0 || row >= rows_.count || column < 0 || column >= rows_.width) return;
    float& marked = strengths_[rows_.index(row, column)];
    marked = std::max(marked, strength);
  }

  const Layer& layer_;
  const SeenSurface& surface_;
  const std::vector<PictureShape>& shapes_;
  const SampleRows& rows_;
  double pitchMm_;
  float creaseCosine_ = static_cast<float>(std::cos(radFromDeg(kCreaseDeg)));
  std::vector<float> strengths_;
};

}  // namespace

std::vector<float> lineStrengths(const Layer& layer, const SeenSurface& surface,
                                 const std::vector<PictureShape>& shapes, const SampleRows& rows,
                                 double pixelsPerMm) {
  return LineFinder(layer, surface, shapes, rows, pixelsPerMm).find();
}

}  // namespace swingroom
