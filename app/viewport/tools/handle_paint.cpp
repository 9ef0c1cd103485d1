#include "app/viewport/tools/handle_paint.h"

#include <algorithm>
#include <cmath>

#include "app/viewport/tools/handle_geometry.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;

/// Paints one handle into a batch.
class HandlePainter {
 public:
  HandlePainter(const DrawnHandle& drawn, const ViewFrame& frame, StrokeBatch& batch)
      : drawn_(drawn),
        handle_(drawn.handle),
        frame_(frame),
        view_(batch.projection()),
        batch_(batch),
        ratio_(frame.pixelRatio) {}

  void paint() {
    if (!view_.isBefore(handle_.point_W) || !view_.isBefore(knob())) return;
    if (handle_.isGrip) return paintGrip();
    paintTrack();
    if (handle_.kind == ViewHandle::Kind::turn) {
      line(pixel(handle_.point_W), pixel(knob()), 1.4, frame_.colours.ink, true);
    }
    paintKnob();
  }

 private:
  bool lit() const { return drawn_.hot || drawn_.held; }
  Vector3d knob() const { return knobOf(handle_, view_, ratio_); }
  Vector2d pixel(const Vector3d& p_W) const { return view_.pixel(p_W); }

  StrokeStyle style(QColor colour, double width, double opacity = 1) const {
    colour.setAlphaF(static_cast<float>(opacity));
    return {colour, width * ratio_};
  }
  /// With a pale halo it reads on any part.
  void line(const Vector2d& a, const Vector2d& b, double width, const QColor& colour, bool halo) {
    if (halo) batch_.flatLine(a, b, style(frame_.colours.ground, width + 2.4, 0.75));
    batch_.flatLine(a, b, style(colour, width));
  }
  void track(double from, double to, double width, const QColor& colour, double opacity) {
    const auto points = trackOf(handle_, view_, from, to, ratio_);
    for (std::size_t i = 1; i < points.size(); ++i) {
      if (!view_.isBefore(points[i - 1]) || !view_.isBefore(points[i])) continue;
      batch_.flatLine(pixel(points[i - 1]), pixel(points[i]), style(colour, width, opacity));
    }
  }

  void paintTrack() {
    track(handle_.least, handle_.greatest, 4.5, frame_.colours.ground, 0.6);
    track(handle_.least, handle_.greatest, 1.8, frame_.colours.soft, lit() ? 0.95 : 0.8);
    for (const double click : handle_.clicks) tick(click, 1.4, 4, frame_.colours.soft);
    if (!handle_.freeFrom || !handle_.freeTo) return;
    track(*handle_.freeFrom, *handle_.freeTo, lit() ? 4.4 : 3.2, frame_.colours.accent, 1);
    if (handle_.stopsBelow) tick(*handle_.freeFrom, 2.8, 12, frame_.colours.clash);
    if (handle_.stopsAbove) tick(*handle_.freeTo, 2.8, 12, frame_.colours.clash);
  }

  /// A stroke across the track.
  void tick(double value, double width, double half, const QColor& colour) {
    const Vector3d at_W = trackPoint(handle_, view_, value, ratio_);
    if (!view_.isBefore(at_W)) return;
    const Vector2d at = pixel(at_W);
    Vector2d across;
    if (handle_.kind == ViewHandle::Kind::turn) {
      across = at - pixel(handle_.point_W);
    } else {
      const Vector2d along = pixel(at_W + handle_.axis_W) - at;
      across = Vector2d(-along.y(), along.x());
    }
    if (!(across.norm() > 1e-6)) return;
    across *= half * ratio_ / across.norm();
    line(at - across, at + across, width, colour, true);
  }

  void disc(const Vector2d& middle, double radius, const QColor& fill, const QColor& rim,
            double rimWidth) {
    for (double r = 0.5; r < radius; r += 1)
      batch_.flatCircle(middle, r * ratio_, style(fill, 1.8));
    batch_.flatCircle(middle, radius * ratio_, style(rim, rimWidth));
  }

  void paintKnob() {
    const Vector2d at = pixel(knob());
    const QColor& rim = lit() ? frame_.colours.accent : frame_.colours.ink;
    if (handle_.kind == ViewHandle::Kind::slide) paintArrows(at, rim);
    batch_.flatCircle(at, (kKnobPixels + 1.2) * ratio_, style(frame_.colours.ground, 3, 0.75));
    disc(at, lit() ? kKnobPixels + 1 : kKnobPixels, frame_.colours.panel, rim, lit() ? 2.6 : 2);
  }

  /// Which way it goes.
  void paintArrows(const Vector2d& at, const QColor& colour) {
    const Vector3d knob_W = knob();
    const double mm = view_.mmPerPixel(view_.depthMm(knob_W));
    Vector2d along = pixel(knob_W + mm * handle_.axis_W) - at;
    if (!(along.norm() > 0.2)) return;  // It comes at the eye.
    along.normalize();
    const Vector2d aside(-along.y(), along.x());
    for (const double way : {-1.0, 1.0}) {
      const Vector2d tip = at + way * 17 * ratio_ * along;
      for (const double side : {-1.0, 1.0}) {
        line(tip - 6 * ratio_ * (way * along + side * 0.75 * aside), tip, 2, colour, true);
      }
    }
  }

  void paintGrip() {
    const Vector2d at = pixel(knob());
    const double half = (lit() ? 4.5 : 3.5) * ratio_;
    const Vector2d right(half, 0), up(0, half);
    const QColor& rim = frame_.colours.accent;
    batch_.flatLine(at - right, at + right, style(rim, 2 * half / ratio_ + 3));
    batch_.flatLine(at - right + Vector2d(1.5, 0) * ratio_ * 0.5,
                    at + right - Vector2d(1.5, 0) * ratio_ * 0.5,
                    style(frame_.colours.panel, 2 * half / ratio_ - 0.5));
  }

  const DrawnHandle& drawn_;
  const ViewHandle& handle_;
  const ViewFrame& frame_;
  const ViewProjection& view_;
  StrokeBatch& batch_;
  double ratio_;
};

}  // namespace

void addHandle(const DrawnHandle& drawn, const ViewFrame& frame, StrokeBatch& batch) {
  HandlePainter(drawn, frame, batch).paint();
}

void addMark(const SnapPoint& mark, const ViewFrame& frame, StrokeBatch& batch) {
  const ViewProjection& view = batch.projection();
  if (!view.isBefore(mark.p_W)) return;
  const Vector2d at = view.pixel(mark.p_W);
  const double half = 6 * frame.pixelRatio;
  const Vector2d right(half, 0), up(0, half);
  for (const bool halo : {true, false}) {
    const StrokeStyle style{halo ? frame.colours.ground : frame.colours.accent,
                            (halo ? 4.5 : 2) * frame.pixelRatio};
    const auto line = [&](const Vector2d& a, const Vector2d& b) { batch.flatLine(a, b, style); };
    if (mark.kind == SnapPoint::Kind::corner) {
      line(at - right - up, at + right - up);
      line(at + right - up, at + right + up);
      line(at + right + up, at - right + up);
      line(at - right + up, at - right - up);
    } else if (mark.kind == SnapPoint::Kind::edge) {
      line(at - right - up, at + right + up);
      line(at - right + up, at + right - up);
    } else {
      batch.flatCircle(at, half, style);
    }
  }
}

QPoint besideHandle(const Vector2d& knob, const QSize& card, const ViewSize& size, double ratio) {
  const double off = 18 * ratio;
  double left = knob.x() + off, top = knob.y() - off - card.height();
  if (left + card.width() > size.width) left = knob.x() - off - card.width();
  if (top < 0) top = knob.y() + off;
  return {static_cast<int>(std::lround(std::max(0.0, left))),
          static_cast<int>(std::lround(std::max(0.0, top)))};
}

}  // namespace swingroom
