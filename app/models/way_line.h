#pragma once

#include <QString>
#include <QStringList>

namespace swingroom {

/// What the line over the ribbon shows: two stations and the steps between them.
struct WayLine {
  QString from, to;          ///< Modes at the ends.
  QStringList steps;         ///< Names; they take equal shares of the line.
  bool standsStill = false;  ///< One mode looked at on its own: no way to go.

  bool operator==(const WayLine&) const = default;
};

}  // namespace swingroom
