#include "app/panels/way/way_axis.h"

#include <algorithm>
#include <cmath>

#include "app/session/stand.h"

namespace swingroom {
namespace {

constexpr double kSnapPx = 4;
/// A bead that is nearer than this counts as the place where we stand already.
constexpr double kHere = 1e-9;
/// How much of what is seen lies at least between the needle and an edge, while there is more.
constexpr double kSightMargin = 0.06;

}  // namespace

double WayAxis::xAt(double instant) const {
  return left + (instant - from) / span() * width;
}

double WayAxis::instantAt(double x) const {
  return width > 0 ? std::clamp(from + (x - left) / width * span(), 0.0, 1.0) : from;
}

WayAxis zoomedAbout(const WayAxis& axis, double x, double factor) {
  const double fixed = axis.instantAt(std::clamp(x, axis.left, axis.right()));
  const double span = std::clamp(axis.span() / factor, kLeastSpan, 1.0);
  const double share = (fixed - axis.from) / axis.span();
  WayAxis zoomed = axis;
  zoomed.from = fixed - share * span;
  zoomed.to = zoomed.from + span;
  return pannedTo(zoomed, zoomed.from);
}

WayAxis pannedTo(const WayAxis& axis, double from) {
  WayAxis panned = axis;
  const double span = std::min(axis.span(), 1.0);
  panned.from = std::clamp(from, 0.0, 1 - span);
  // Exactly 1 at the end, so that the whole way is known as such.
  panned.to = panned.from + span > 1 - 1e-12 ? 1 : panned.from + span;
  if (span >= 1 - 1e-12) panned.from = 0;
  return panned;
}

WayAxis withInSight(const WayAxis& axis, double instant) {
  const double margin = kSightMargin * axis.span();
  if (instant < axis.from + margin) return pannedTo(axis, instant - margin);
  if (instant > axis.to - margin) return pannedTo(axis, instant + margin - axis.span());
  return axis;
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
