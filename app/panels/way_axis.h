#pragma once

#include <qnamespace.h>
#include <cstddef>
#include <optional>

namespace swingroom {

/// The x axis that the line, the ribbon and the needle share: instants 0 to 1 over `width` device
/// independent pixels from `left` on.
struct WayAxis {
  double left = 0, width = 1;

  double xAt(double instant) const;
  /// 0 to 1 also for an x before the beginning or after the end.
  double instantAt(double x) const;
  double right() const { return left + width; }

  bool operator==(const WayAxis&) const = default;
};

/// The instant of the bead (or station) nearest to `x` if that is within 4 px, else that of `x`.
double snappedInstant(const WayAxis& axis, double x, std::size_t steps);

/// Where a key leads from `instant`: Left and Right to the next bead or station, with Shift by
/// 1/100, Home and End to the stations. None for any other key. At an end it stays there.
std::optional<double> instantAfter(int key, Qt::KeyboardModifiers modifiers, double instant,
                                   std::size_t steps);

/// The step that an instant lies in, from 0; at a bead the one that begins there, at 1 the last.
std::size_t stepAt(double instant, std::size_t steps);

}  // namespace swingroom
