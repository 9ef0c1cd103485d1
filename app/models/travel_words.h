#pragma once

#include <QString>
#include <optional>

#include "core/assembly/assembly.h"
#include "core/sweep/free_travel.h"

namespace swingroom {

/// What is said of how far a joint goes.
struct TravelWords {
  QString line;     ///< "to 47.3°, then lid touches hull"; empty: nothing stops it.
  QString tooltip;  ///< All of it, a line each.

  bool operator==(const TravelWords&) const = default;
};

/// @param isAngle  Numbers are rad, said in degrees; else mm.
TravelWords travelWords(const Assembly& assembly, const FreeTravel& travel, bool isAngle);

/// "lid touches hull"; where it is not proven that it touches, that.
QString stopWords(const Assembly& assembly, const TravelStop& stop);

/// The span may be shown as free: no two parts that this moves meet as everything stands.
inline bool isFree(const FreeTravel& travel) {
  return travel.meeting.empty();
}

/// "47.3°" or "12.40 mm".
QString travelFigure(double number, bool isAngle);

}  // namespace swingroom
