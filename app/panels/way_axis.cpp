#include "app/panels/way_axis.h"

#include <algorithm>
#include <cmath>

#include "app/session/stand.h"

namespace swingroom {
namespace {

constexpr double kSnapPx = 4;
/// A bead that is nearer than this counts as the place where we stand already.
constexpr double kHere = 1e-9;

}  // namespace

double WayAxis::xAt(double instant) const {
  return left + instant * width;
}

double WayAxis::instantAt(double x) const {
  return width > 0 ? std::clamp((x - left) / width, 0.0, 1.0) : 0.0;
}

double snappedInstant(const WayAxis& axis, double x, std::size_t steps) {
  const double instant = axis.instantAt(x);
  const double count = static_cast<double>(std::max<std::size_t>(steps, 1));
  const double bead = std::round(instant * count) / count;
  return std::abs(axis.xAt(bead) - x) <= kSnapPx ? bead : instant;
}

std::optional<double> instantAfter(int key, Qt::KeyboardModifiers modifiers, double instant,
                                   std::size_t steps) {
  if (key == Qt::Key_Home) return 0.0;
  if (key == Qt::Key_End) return 1.0;
  if (key != Qt::Key_Left && key != Qt::Key_Right) return std::nullopt;
  if (modifiers & (Qt::AltModifier | Qt::MetaModifier)) return std::nullopt;
  const bool forward = key == Qt::Key_Right;
  if (modifiers & Qt::ShiftModifier) {
    return std::clamp(instant + (forward ? 0.01 : -0.01), 0.0, 1.0);
  }
  return nextBead(instant, steps, forward);
}

std::size_t stepAt(double instant, std::size_t steps) {
  if (steps == 0) return 0;
  const auto step = static_cast<std::size_t>(
      std::floor(std::clamp(instant, 0.0, 1.0) * static_cast<double>(steps) + kHere));
  return std::min(step, steps - 1);
}

}  // namespace swingroom
