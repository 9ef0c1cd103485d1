#include "app/viewport/paint/view_paint.h"

#include <algorithm>

namespace swingroom {
namespace {

QColor between(const QColor& a, const QColor& b, double share) {
  const auto channel = [&](float from, float to) {
    return from + static_cast<float>(share) * (to - from);
  };
  return QColor::fromRgbF(channel(a.redF(), b.redF()), channel(a.greenF(), b.greenF()),
                          channel(a.blueF(), b.blueF()));
}

}  // namespace

QColor colourAt(const PaintScale& scale, double mm) {
  if (scale.stops.empty()) return Qt::gray;
  const auto next = std::find_if(scale.stops.begin(), scale.stops.end(),
                                 [&](const PaintScale::Stop& stop) { return stop.mm >= mm; });
  if (next == scale.stops.begin()) return next->colour;
  if (next == scale.stops.end()) return scale.stops.back().colour;
  const PaintScale::Stop& before = *(next - 1);
  return between(before.colour, next->colour, (mm - before.mm) / (next->mm - before.mm));
}

double bandMiddle(const PaintScale& scale, double mm) {
  if (scale.stops.empty()) return mm;
  double low = scale.stops.front().mm, high = scale.stops.back().mm;
  for (const double level : scale.levelsMm) {
    if (level <= mm) low = std::max(low, level);
    if (level > mm) high = std::min(high, level);
  }
  return low < high ? 0.5 * (low + high) : low;
}

}  // namespace swingroom
