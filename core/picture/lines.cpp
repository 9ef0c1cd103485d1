#include "core/picture/lines.h"

#include <array>
#include <cmath>

#include "core/base/transform.h"
#include "core/picture/smoothing.h"

namespace swingroom {
namespace {

constexpr float kOutlineInk = 0.92F;
constexpr float kCreaseInk = 0.55F;
constexpr float kPaleInk = 0.42F;  ///< Of a line that has pale shapes only beside it.

struct Neighbour {
  int right, down;
  bool outlineOnly;  ///< Creases reach the nearest samples only: they are finer.
};
constexpr std::array<Neighbour, 12> kNeighbours{{{1, 0, false},
                                                 {-1, 0, false},
                                                 {0, 1, false},
                                                 {0, -1, false},
                                                 {1, 1, true},
                                                 {-1, 1, true},
                                                 {1, -1, true},
                                                 {-1, -1, true},
                                                 {2, 0, true},
                                                 {-2, 0, true},
                                                 {0, 2, true},
                                                 {0, -2, true}}};

class LineFinder {
 public:
  LineFinder(const Layer& layer, const Surface& surface, const std::vector<PictureShape>& shapes,
             const SampleRows& rows, double pixelsPerMm)
      : layer_(layer),
        surface_(surface),
        shapes_(shapes),
        rows_(rows),
        pitchMm_(1 / pixelsPerMm / rows.perPixel) {}

  float strengthAt(int row, int column) const {
    float strength = 0;
    const std::size_t here = rows_.index(row, column);
    for (const Neighbour& neighbour : kNeighbours) {
      const int r = row + neighbour.down, c = column + neighbour.right;
      if (r < 0 || r >= rows_.count || c < 0 || c >= rows_.width) continue;
      const std::size_t there = rows_.index(r, c);
      if (layer_.triangles[here] == layer_.triangles[there]) continue;
      strength = std::max(strength, between(here, there, neighbour));
    }
    return strength;
  }

 private:
  float between(std::size_t here, std::size_t there, const Neighbour& step) const {
    const std::uint32_t i = layer_.triangles[here], j = layer_.triangles[there];
    const DrawnTriangle* a = i == Layer::kNothing ? nullptr : &surface_.triangles[i];
    const DrawnTriangle* b = j == Layer::kNothing ? nullptr : &surface_.triangles[j];
    const bool pale = (!a || shapes_[a->shape].pale) && (!b || shapes_[b->shape].pale);
    const float ink = pale ? kPaleInk : 1.0F;
    if (!a || !b || a->shape != b->shape) return kOutlineInk * ink;
    if (isJump(*a, *b, layer_.depths[there] - layer_.depths[here], step)) return kOutlineInk * ink;
    if (step.outlineOnly || a->face == b->face) return 0;
    return a->flat_W.dot(b->flat_W) < creaseCosine_ ? kCreaseInk * ink : 0;
  }

  /// Whether neither plane, carried on, meets the other sample.
  bool isJump(const DrawnTriangle& a, const DrawnTriangle& b, double rise,
              const Neighbour& step) const {
    const Eigen::Vector2d move(static_cast<double>(step.right) / rows_.perPixel,
                               static_cast<double>(step.down) / rows_.perPixel);
    const double missed =
        std::min(std::abs(rise - a.slope.dot(move)), std::abs(rise - b.slope.dot(move)));
    const double flatter = std::min(a.slope.squaredNorm(), b.slope.squaredNorm());
    return missed > pitchMm_ * 2 + std::sqrt(flatter) * move.norm();
  }

  const Layer& layer_;
  const Surface& surface_;
  const std::vector<PictureShape>& shapes_;
  const SampleRows& rows_;
  double pitchMm_;
  float creaseCosine_ = static_cast<float>(std::cos(radFromDeg(kCreaseDeg)));
};

}  // namespace

std::vector<float> lineStrengths(const Layer& layer, const Surface& surface,
                                 const std::vector<PictureShape>& shapes, const SampleRows& rows,
                                 double pixelsPerMm) {
  const LineFinder finder(layer, surface, shapes, rows, pixelsPerMm);
  std::vector<float> strengths(rows.size(), 0.0F);
  for (int row = 0; row < rows.count; ++row) {
    for (int column = 0; column < rows.width; ++column) {
      strengths[rows.index(row, column)] = finder.strengthAt(row, column);
    }
  }
  return strengths;
}

}  // namespace swingroom
