#include "app/viewport/painters/floor_grid.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

constexpr double kSquareMm = 10;
constexpr double kFadeFrom = 1.0, kFadeTo = 2.4;  ///< Radii of what is shown.
constexpr int kPieces = 12;                       ///< Of a line, for its fading.

double smoothStep(double from, double to, double value) {
  const double part = std::clamp((value - from) / (to - from), 0.0, 1.0);
  return part * part * (3 - 2 * part);
}

/// How well lines are told apart there, 0 to 1: squares of few pixels would be grey mush.
double clarityOf(const Vector3d& p_W, double spacingMm, const FloorFrame& floor,
                 const ViewProjection& view) {
  const ViewCamera& camera = view.camera();
  const Vector3d ray =
      camera.perspective ? Vector3d((p_W - camera.eye_W()).normalized()) : camera.towards_W();
  const double steep = -floor.up_W.dot(ray);
  const double depth = view.depthMm(p_W);
  if (!(steep > 0) || (camera.perspective && depth <= 0)) return 0;
  const double squarePixels = spacingMm * steep / view.mmPerPixel(depth);
  return smoothStep(2.5, 7, squarePixels) * smoothStep(0.01, 0.12, steep);
}

/// A bed of metres: its finest lines could not be told apart, and would be thousands.
double finestSpacingMm(const ViewBounds& bounds) {
  return bounds.radiusMm > 1000 ? 10 * kSquareMm : kSquareMm;
}

class GridLines {
 public:
  GridLines(const FloorFrame& floor, const ViewBounds& bounds, StrokeBatch& batch)
      : floor_(floor),
        middle_(floor.place(bounds.centre_W)),
        batch_(batch),
        reachMm_(std::max(bounds.radiusMm, kSquareMm)) {}

  /// All lines of that spacing but those on a multiple of `but` spacings.
  void add(double spacingMm, int but, const StrokeStyle& style) {
    for (int axis = 0; axis < 2; ++axis) {
      const double halfMm = kFadeTo * reachMm_;
      const auto first = static_cast<long>(std::ceil((middle_[axis] - halfMm) / spacingMm));
      const auto last = static_cast<long>(std::floor((middle_[axis] + halfMm) / spacingMm));
      for (long i = first; i <= last; ++i) {
        if (but == 0 || i % but != 0)
          addLine(axis, static_cast<double>(i) * spacingMm, spacingMm, style);
      }
    }
  }

 private:
  Vector3d point(const Eigen::Vector2d& place) const {
    return place.x() * floor_.along_W + place.y() * floor_.across_W + floor_.heightMm * floor_.up_W;
  }

  float opacityAt(const Eigen::Vector2d& place, double spacingMm) const {
    const double far = (place - middle_).norm() / reachMm_;
    return static_cast<float>((1 - smoothStep(kFadeFrom, kFadeTo, far)) *
                              clarityOf(point(place), spacingMm, floor_, batch_.projection()));
  }

  void addLine(int axis, double atMm, double spacingMm, const StrokeStyle& style) {
    const double off = atMm - middle_[axis], radius = kFadeTo * reachMm_;
    const double half = std::sqrt(std::max(0.0, radius * radius - off * off));
    Eigen::Vector2d place;
    place[axis] = atMm;
    place[1 - axis] = middle_[1 - axis] - half;
    Vector3d before = point(place);
    float opacityBefore = opacityAt(place, spacingMm);
    for (int piece = 1; piece <= kPieces; ++piece) {
      place[1 - axis] = middle_[1 - axis] + half * (2.0 * piece / kPieces - 1);
      const Vector3d now = point(place);
      const float opacity = opacityAt(place, spacingMm);
      if (opacityBefore > 0 || opacity > 0) batch_.line(before, now, style, opacityBefore, opacity);
      before = now, opacityBefore = opacity;
    }
  }

  FloorFrame floor_;
  Eigen::Vector2d middle_;
  StrokeBatch& batch_;
  double reachMm_;
};

}  // namespace

void addFloorGrid(const FloorFrame& floor, const ViewBounds& bounds, const QColor& colour,
                  double pixelRatio, StrokeBatch& batch) {
  const ViewCamera& camera = batch.projection().camera();
  const bool below = camera.perspective && floor.above(camera.eye_W()) <= 0;
  if (below || (!camera.perspective && floor.up_W.dot(camera.towards_W()) >= 0)) return;
  GridLines lines(floor, bounds, batch);
  QColor faint = colour;
  faint.setAlphaF(0.62F);
  const double spacing = finestSpacingMm(bounds);
  lines.add(spacing, 5, {faint, 1.0 * pixelRatio, 0});
  lines.add(5 * spacing, 0, {colour, 1.4 * pixelRatio, 0});
}

std::optional<double> seenGridSpacingMm(const FloorFrame& floor, const ViewBounds& bounds,
                                        const ViewProjection& projection) {
  const Vector3d foot_W = bounds.centre_W - floor.above(bounds.centre_W) * floor.up_W;
  for (const double spacing : {finestSpacingMm(bounds), 5 * finestSpacingMm(bounds)}) {
    if (clarityOf(foot_W, spacing, floor, projection) > 0.4) return spacing;
  }
  return std::nullopt;
}

}  // namespace swingroom
