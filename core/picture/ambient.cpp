#include "core/picture/ambient.h"

#include <algorithm>
#include <cmath>

#include "core/base/parallel.h"

namespace swingroom {
namespace {

constexpr int kRowsAtOnce = 16;

/// How far things darken each other: a share of what is seen.
double reachFor(const SeenSurface& surface, const Camera& camera, const PictureRequest& request) {
  const double seenMm = std::min(request.width, request.height) / camera.pixelsPerMm / 2;
  return 0.45 * std::min(seenMm, std::max(surface.radiusMm, 1e-3));
}

}  // namespace

Stage::Stage(const PictureRequest& pictureRequest)
    : request(pictureRequest),
      camera(fitCamera(request)),
      surface(makeSeenSurface(request, camera)),
      floor(request, camera, surface),
      shading(camera),
      occlusion(surface, request.shapes, camera, reachFor(surface, camera, request)) {}

Ambient::Ambient(const Stage& stage)
    : stage_(stage), width_(stage.request.width), height_(stage.request.height) {
  const std::size_t count = static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_);
  triangles_.resize(count);
  depths_.resize(count);
  rough_.resize(count, 1.0F);
  even_.resize(count, 1.0F);
  const auto bands = static_cast<std::size_t>((height_ + kRowsAtOnce - 1) / kRowsAtOnce);
  parallelFor(bands, stage.request.threads, [&](std::size_t band) {
    const int first = static_cast<int>(band) * kRowsAtOnce;
    look(first, std::min(height_, first + kRowsAtOnce));
  });
  parallelFor(static_cast<std::size_t>(height_), stage.request.threads, [&](std::size_t row) {
    const int y = static_cast<int>(row);
    for (int x = 0; x < width_; ++x) even_[index(x, y)] = evened(x, y);
  });
}

void Ambient::look(int firstRow, int endRow) {
  const SampleRows rows{width_, firstRow, endRow - firstRow, 1};
  const Layer layer =
      nearestLayer(stage_.surface, stage_.request.shapes, false, rows, stage_.camera.pixelsPerMm);
  for (int y = firstRow; y < endRow; ++y) {
    for (int x = 0; x < width_; ++x) {
      const std::size_t sample = rows.index(y - firstRow, x);
      std::uint32_t triangle = layer.triangles[sample];
      double depth = layer.depths[sample];
      if (triangle == Layer::kNothing) {
        if (const auto floorDepth = stage_.floor.depthAt(x + 0.5, y + 0.5))
          triangle = kFloor, depth = *floorDepth;
      }
      triangles_[index(x, y)] = triangle;
      depths_[index(x, y)] = static_cast<float>(depth);
      if (triangle != Layer::kNothing)
        rough_[index(x, y)] = trace(x + 0.5, y + 0.5, triangle, depth);
    }
  }
}

float Ambient::trace(double x, double y, std::uint32_t triangle, double depth) const {
  const Vector3d p_W = stage_.camera.pointAt(x, y, depth);
  const Eigen::Vector3f normal_W =
      triangle == kFloor ? Eigen::Vector3f(Eigen::Vector3f::UnitZ())
                         : stage_.shading.flatNormal(stage_.surface.triangles[triangle]);
  return stage_.occlusion.openness(p_W, normal_W, static_cast<int>(x), static_cast<int>(y));
}

bool Ambient::sameSurface(double dx, double dy, std::uint32_t a, double aDepth, std::uint32_t b,
                          double bDepth) const {
  if (a == kFloor || b == kFloor || b == Layer::kNothing) return a == b;
  const DrawnTriangle& first = stage_.surface.triangles[a];
  const DrawnTriangle& second = stage_.surface.triangles[b];
  if (first.shape != second.shape) return false;
  const Eigen::Vector2d move(dx, dy);
  const double rise = bDepth - aDepth;
  const double missed =
      std::min(std::abs(rise - first.slope.dot(move)), std::abs(rise - second.slope.dot(move)));
  if (missed > 1.5 / stage_.camera.pixelsPerMm) return false;
  return stage_.shading.flatNormal(first).dot(stage_.shading.flatNormal(second)) > 0.85F;
}

float Ambient::evened(int x, int y) const {
  const std::size_t here = index(x, y);
  const std::uint32_t triangle = triangles_[here];
  if (triangle == Layer::kNothing) return 1;
  float sum = 0;
  int count = 0;
  for (int v = std::max(0, y - 2); v < std::min(height_, y + 2); ++v) {
    for (int u = std::max(0, x - 2); u < std::min(width_, x + 2); ++u) {
      const std::size_t there = index(u, v);
      if (triangles_[there] != triangle &&
          !sameSurface(u - x, v - y, triangle, depths_[here], triangles_[there], depths_[there])) {
        continue;
      }
      sum += rough_[there];
      ++count;
    }
  }
  return sum / static_cast<float>(count);
}

float Ambient::opennessAt(double x, double y, std::uint32_t triangle, double depth) const {
  const int column = std::clamp(static_cast<int>(x), 0, width_ - 1);
  const int row = std::clamp(static_cast<int>(y), 0, height_ - 1);
  // The pixel itself first, then its neighbours.
  static constexpr int kSteps[9][2] = {{0, 0}, {1, 0},  {-1, 0}, {0, 1},  {0, -1},
                                       {1, 1}, {-1, 1}, {1, -1}, {-1, -1}};
  for (const auto& step : kSteps) {
    const int u = column + step[0], v = row + step[1];
    if (u < 0 || v < 0 || u >= width_ || v >= height_) continue;
    const std::size_t there = index(u, v);
    if (triangles_[there] == triangle ||
        sameSurface(u + 0.5 - x, v + 0.5 - y, triangle, depth, triangles_[there], depths_[there])) {
      return even_[there];
    }
  }
  return trace(x, y, triangle, depth);
}

}  // namespace swingroom
