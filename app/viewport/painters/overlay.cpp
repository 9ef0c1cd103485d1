#include "app/viewport/painters/overlay.h"

#include <QFontMetricsF>
#include <QPainter>
#include <array>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector2d;

constexpr double kRing = 11, kShortLine = 16;  ///< Pixels of the layout.

StrokeStyle overlayStyle(QColor colour, double width, const ViewFrame& frame, float opacity = 1) {
  colour.setAlphaF(opacity);
  return {colour, width * frame.pixelRatio, 1.5};
}

std::vector<Vector3d> arc(const Vector3d& middle, const Vector3d& u, const Vector3d& v,
                          double fromRad, double toRad) {
  constexpr int kSides = 48;
  std::vector<Vector3d> points;
  for (int i = 0; i <= kSides; ++i) {
    const double angle = fromRad + (toRad - fromRad) * i / kSides;
    points.push_back(middle + std::cos(angle) * u + std::sin(angle) * v);
  }
  return points;
}

/// Long dash, gap, short dash, gap: a centre line, ISO 128 type 04 (common practice).
void addCentreLine(const Vector3d& from, const Vector3d& to, double mmAPixel,
                   const StrokeStyle& style, StrokeBatch& batch) {
  const std::array<double, 4> pattern{14 * mmAPixel, 4 * mmAPixel, 3 * mmAPixel, 4 * mmAPixel};
  const double length = (to - from).norm();
  if (!(length > 0) || length > 4000 * mmAPixel) return batch.line(from, to, style);
  const Vector3d along = (to - from) / length;
  double at = 0;
  for (std::size_t i = 0; at < length; ++i) {
    const double end = std::min(length, at + pattern[i % 4]);
    if (i % 2 == 0) batch.line(from + at * along, from + end * along, style);
    at = end;
  }
}

/// Two short strokes at `tip`, which `along` (unit) runs into.
void addArrowHead(const Vector3d& tip, const Vector3d& along, const Vector3d& aside, double sizeMm,
                  const StrokeStyle& style, StrokeBatch& batch) {
  for (const double side : {-0.5, 0.5})
    batch.line(tip - sizeMm * along + side * sizeMm * aside, tip, style);
}

/// Dark on a pale halo: reads on any part.
void addHaloed(const Vector2d& a, const Vector2d& b, double width, const ViewFrame& frame,
               bool halo, StrokeBatch& batch) {
  const QColor& colour = halo ? frame.colours.ground : frame.colours.ink;
  batch.flatLine(a, b, overlayStyle(colour, halo ? width + 2.6 : width, frame, halo ? 0.8F : 1.0F));
}

void addGapLine(const std::array<Vector2d, 2>& ends, const ViewFrame& frame, bool halo,
                StrokeBatch& batch) {
  const double length = (ends[1] - ends[0]).norm(), ratio = frame.pixelRatio;
  if (length > 0.5) addHaloed(ends[0], ends[1], 1.6, frame, halo, batch);
  if (length > 5 * ratio) {
    const Vector2d along = (ends[1] - ends[0]) / length;
    const Vector2d tick =
        (length > kShortLine * ratio ? 5.5 : 3.5) * ratio * Vector2d(-along.y(), along.x());
    for (const Vector2d& end : ends) addHaloed(end - tick, end + tick, 1.6, frame, halo, batch);
  }
  if (length >= kShortLine * ratio) return;
  const QColor& colour = halo ? frame.colours.ground : frame.colours.ink;
  batch.flatCircle(0.5 * (ends[0] + ends[1]), kRing * ratio,
                   overlayStyle(colour, halo ? 4.2 : 1.6, frame, halo ? 0.8F : 1.0F));
}

}  // namespace

void addAxis(const ViewAxis& axis, const ViewFrame& frame, StrokeBatch& batch) {
  if (!(axis.direction_W.norm() > 0)) return;
  const Vector3d along = axis.direction_W.normalized();
  const Vector3d from = axis.point_W + axis.fromMm * along, to = axis.point_W + axis.toMm * along;
  const StrokeStyle style = axis.strong ? overlayStyle(frame.colours.accent, 2, frame)
                                        : overlayStyle(frame.colours.soft, 1.2, frame, 0.85F);
  const ViewProjection& view = batch.projection();
  if (!view.isBefore(to)) return batch.line(from, to, style);
  const double mmAPixel = view.mmPerPixel(view.depthMm(to)) * frame.pixelRatio;
  addCentreLine(from, to, mmAPixel, style, batch);
  if (axis.plain) return;
  const Vector3d u = along.unitOrthogonal(), v = along.cross(u);
  if (axis.turns) {
    const double radius = (axis.strong ? 15 : 11) * mmAPixel;
    batch.path(arc(to, radius * u, radius * v, 0, 1.5 * kPi), style);
    addArrowHead(to - radius * v, u, v, 0.55 * radius, style, batch);
  } else {
    const Vector3d seen = along.cross(view.camera().towards_W());
    const Vector3d aside = seen.norm() > 1e-6 ? seen.normalized() : u;
    addArrowHead(to, along, aside, (axis.strong ? 11 : 8) * mmAPixel, style, batch);
  }
}

void addZone(const ViewZone& zone, const ViewFrame& frame, StrokeBatch& batch) {
  if (!(zone.radiusMm > 0) || !(zone.axis_W.norm() > 0)) return;
  const StrokeStyle style = overlayStyle(frame.colours.accent, 1.3, frame, 0.9F);
  const ViewCamera& camera = batch.projection().camera();
  const Vector3d along = zone.axis_W.normalized(), u = along.unitOrthogonal(), v = along.cross(u);
  const auto ring = [&](const Vector3d& middle, const Vector3d& x, const Vector3d& y) {
    batch.path(arc(middle, zone.radiusMm * x, zone.radiusMm * y, 0, 2 * kPi), style);
  };
  if (zone.halfLengthMm <= 0) {
    ring(zone.centre_W, camera.right_W(), camera.upward_W());
    return ring(zone.centre_W, u, v);
  }
  const Vector3d half = zone.halfLengthMm * along;
  ring(zone.centre_W - half, u, v);
  ring(zone.centre_W + half, u, v);
  const Vector3d ray =
      camera.perspective ? Vector3d(zone.centre_W - camera.eye_W()) : camera.towards_W();
  const Vector3d side = along.cross(ray);
  if (side.norm() < 1e-6 * ray.norm()) return;
  for (const double sign : {-1.0, 1.0}) {
    const Vector3d rim = zone.centre_W + sign * zone.radiusMm * side.normalized();
    batch.line(rim - half, rim + half, style);
  }
}

const QImage& CardImage::of(const QString& words, const ViewColours& colours, const QFont& font,
                            double pixelRatio) {
  if (words == words_ && colours == colours_ && font == font_ && pixelRatio == pixelRatio_)
    return image_;
  words_ = words, colours_ = colours, font_ = font, pixelRatio_ = pixelRatio;
  const QFontMetricsF metrics(font);
  const QSizeF size(std::ceil(metrics.horizontalAdvance(words)) + 22,
                    std::ceil(metrics.height()) + 12);
  image_ = QImage((size * pixelRatio).toSize(), QImage::Format_ARGB32_Premultiplied);
  image_.setDevicePixelRatio(pixelRatio);
  image_.fill(Qt::transparent);
  QPainter painter(&image_);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(font);
  painter.setPen(QPen(colours.line, 1));
  painter.setBrush(colours.panel);
  painter.drawRoundedRect(QRectF(QPointF(0, 0), size).adjusted(0.5, 0.5, -0.5, -0.5), 7, 7);
  painter.setPen(colours.ink);
  painter.drawText(QRectF(QPointF(0, 0), size), Qt::AlignCenter, words);
  return image_;
}

void addSectionFrame(const ViewFrame& frame, StrokeBatch& batch) {
  const auto& corners_W = frame.sectionFrame_W;
  const StrokeStyle style = overlayStyle(frame.colours.accent, 1.2, frame, 0.8F);
  for (std::size_t i = 0; i < corners_W.size(); ++i)
    batch.line(corners_W[i], corners_W[(i + 1) % corners_W.size()], style);
}

const QImage& KnobImage::of(const Vector2d& way, const ViewColours& colours, double pixelRatio) {
  if (way == way_ && colours == colours_ && pixelRatio == pixelRatio_) return image_;
  way_ = way, colours_ = colours, pixelRatio_ = pixelRatio;
  constexpr int kSide = 26;
  image_ = QImage(QSize(kSide, kSide) * pixelRatio, QImage::Format_ARGB32_Premultiplied);
  image_.setDevicePixelRatio(pixelRatio);
  image_.fill(Qt::transparent);
  QPainter painter(&image_);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.translate(kSide / 2.0, kSide / 2.0);
  painter.setPen(QPen(colours.accent, 1.5));
  painter.setBrush(colours.panel);
  painter.drawEllipse(QPointF(0, 0), 11, 11);
  painter.rotate(std::atan2(way.y(), way.x()) * 180 / kPi);
  painter.setPen(Qt::NoPen);
  painter.setBrush(colours.accent);
  for (const int side : {-1, 1}) {
    const QPointF arrow[] = {{side * 8.0, 0}, {side * 2.5, -4.0}, {side * 2.5, 4.0}};
    painter.drawPolygon(arrow, 3);
  }
  return image_;
}

void addDimension(const std::array<Vector2d, 2>& ends, const DimensionPlace& place,
                  const ViewFrame& frame, StrokeBatch& batch) {
  Vector2d to = place.leaderTo;
  const Vector2d way = place.leaderFrom - to;
  const bool ringed = (ends[1] - ends[0]).norm() < kShortLine * frame.pixelRatio;
  const double stop = ringed ? kRing * frame.pixelRatio : 0;
  if (way.norm() > stop) to += stop / way.norm() * way;
  for (const bool halo : {true, false}) {
    if (way.norm() > stop) addHaloed(place.leaderFrom, to, 1.1, frame, halo, batch);
    addGapLine(ends, frame, halo, batch);
  }
}

}  // namespace swingroom
