#pragma once

#include <qnamespace.h>
#include <cstddef>
#include <optional>

namespace swingroom {

/// The x axis that the line, the ribbon and the needle share: the instants `from` to `to`, which
/// are all of the way or the part of it that is seen close up, over `width` device independent
/// pixels from `left` on.
struct WayAxis {
  double left = 0, width = 1;
  double from = 0, to = 1;

  double xAt(double instant) const;
  /// 0 to 1 also for an x before the beginning or after the end of the way.
  double instantAt(double x) const;
  double right() const { return left + width; }
  double span() const { return to - from; }
  bool isWhole() const { return from <= 0 && to >= 1; }
  bool sees(double instant) const { return instant >= from && instant <= to; }

  bool operator==(const WayAxis&) const = default;
};

/// The least share of the way that can be seen close up.
constexpr double kLeastSpan = 0.01;

/// Closer (`factor` above 1) or farther about the instant at `x`, which stays at its x unless an
/// end of the way is in sight then.
WayAxis zoomedAbout(const WayAxis& axis, double x, double factor);

/// Shows instants from `from` on, as many as now; no farther than to the ends of the way.
WayAxis pannedTo(const WayAxis& axis, double from);

/// Moved as little as it takes to see an instant with a little of what lies on either side.
WayAxis withInSight(const WayAxis& axis, double instant);

/// The instant of the bead (or station) nearest to `x` if that is within 4 px, else that of `x`.
double snappedInstant(const WayAxis& axis, double x, std::size_t steps);

/// Where a key leads from `instant`: Left and Right to the next bead or station, with Shift by
/// 1/100, Home and End to the stations. None for any other key. At an end it stays there.
std::optional<double> instantAfter(int key, Qt::KeyboardModifiers modifiers, double instant,
                                   std::size_t steps);

/// The step that an instant lies in, from 0; at a bead the one that begins there, at 1 the last.
std::size_t stepAt(double instant, std::size_t steps);

}  // namespace swingroom
