#include "app/viewport/painters/strokes.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

std::uint8_t byteOf(float part) {
  return static_cast<std::uint8_t>(std::lround(255 * std::clamp(part, 0.0F, 1.0F)));
}

}  // namespace

StrokeBatch::StrokeBatch(const ViewProjection& projection, const DepthRange& range)
    : projection_(projection),
      nearMm_(static_cast<float>(0.5 * range.nearMm)),
      width_(static_cast<float>(projection.size().width)),
      height_(static_cast<float>(projection.size().height)),
      perspective_(projection.camera().perspective) {
  const Eigen::Matrix4d M = projection.clipFromView(range);
  depthScale_ = static_cast<float>(perspective_ ? M(2, 3) : M(2, 2));
  depthShift_ = static_cast<float>(perspective_ ? M(2, 2) : M(2, 3));
  mmPerPixelAt1_ = static_cast<float>(projection.mmPerPixel(1));
}

StrokeBatch::End StrokeBatch::endOf(const Eigen::Vector3f& p_V, double liftPixels,
                                    float opacity) const {
  const float mm = perspective_ ? mmPerPixelAt1_ * p_V.z() : mmPerPixelAt1_;
  const float depth = p_V.z() - static_cast<float>(liftPixels) * mm;
  const float z =
      perspective_ ? depthShift_ + depthScale_ / depth : depthShift_ + depthScale_ * depth;
  return {0.5F * width_ + p_V.x() / mm, 0.5F * height_ - p_V.y() / mm, z, opacity};
}

void StrokeBatch::add(const End& a, const End& b, const StrokeStyle& style) {
  const auto half = static_cast<float>(0.5 * style.widthPixels);
  const float reach = half + 0.5F;
  if (std::max(a.x, b.x) < -reach || std::min(a.x, b.x) > width_ + reach) return;
  if (std::max(a.y, b.y) < -reach || std::min(a.y, b.y) > height_ + reach) return;
  float dx = b.x - a.x, dy = b.y - a.y;
  const float length = std::sqrt(dx * dx + dy * dy);
  if (!(length > 1e-3F)) return;
  dx /= length, dy /= length;
  const QColor& colour = style.colour;
  const auto push = [&](const End& end, float across) {
    const float x = end.x - across * dy, y = end.y + across * dx;
    vertices_.push_back({2 * x / width_ - 1, 1 - 2 * y / height_, end.z, across, half,
                         byteOf(colour.redF()), byteOf(colour.greenF()), byteOf(colour.blueF()),
                         byteOf(end.opacity * colour.alphaF())});
  };
  push(a, -reach);
  push(a, reach);
  push(b, -reach);
  push(b, reach);
}

void StrokeBatch::lineInView(Eigen::Vector3f a_V, Eigen::Vector3f b_V, const StrokeStyle& style,
                             float opacityA, float opacityB) {
  if (perspective_) {
    if (a_V.z() < nearMm_ && b_V.z() < nearMm_) return;
    if (a_V.z() < nearMm_) a_V += (b_V - a_V) * ((nearMm_ - a_V.z()) / (b_V.z() - a_V.z()));
    if (b_V.z() < nearMm_) b_V += (a_V - b_V) * ((nearMm_ - b_V.z()) / (a_V.z() - b_V.z()));
  }
  add(endOf(a_V, style.liftPixels, opacityA), endOf(b_V, style.liftPixels, opacityB), style);
}

void StrokeBatch::line(const Vector3d& a_W, const Vector3d& b_W, const StrokeStyle& style,
                       float opacityA, float opacityB) {
  lineInView(projection_.inView(a_W).cast<float>(), projection_.inView(b_W).cast<float>(), style,
             opacityA, opacityB);
}

void StrokeBatch::path(const std::vector<Vector3d>& points_W, const StrokeStyle& style) {
  for (std::size_t i = 1; i < points_W.size(); ++i) line(points_W[i - 1], points_W[i], style);
}

void StrokeBatch::flatLine(const Eigen::Vector2d& a, const Eigen::Vector2d& b,
                           const StrokeStyle& style) {
  const auto end = [](const Eigen::Vector2d& p) {
    return End{static_cast<float>(p.x()), static_cast<float>(p.y()), -1};
  };
  add(end(a), end(b), style);
}

void StrokeBatch::flatCircle(const Eigen::Vector2d& middle, double radiusPixels,
                             const StrokeStyle& style) {
  const int sides = std::clamp(static_cast<int>(4 * radiusPixels), 24, 120);
  const auto at = [&](int i) {
    const double angle = 2 * kPi * i / sides;
    return Eigen::Vector2d(middle +
                           radiusPixels * Eigen::Vector2d(std::cos(angle), std::sin(angle)));
  };
  for (int i = 0; i < sides; ++i) flatLine(at(i), at(i + 1), style);
}

}  // namespace swingroom
