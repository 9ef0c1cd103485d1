#pragma once

#include <QString>
#include <optional>

#include "app/session/scene.h"
#include "core/room/room_map.h"

/// What the window says of a part's room. Figures are proven ones and rounded down.
namespace swingroom {

/// "1.24 mm" of 1.2478: never more than there is.
QString roomFigure(double lowerMm, int decimals = 2);

/// The same of a place: "1.24 mm", "5.00 mm or more", "none"; empty for what is left out.
QString roomOf(const RoomPlace& place, double capMm);

/// Where it stops: "next to collar, step 4 head in, instant 0.6125"; empty: nowhere within the cap.
QString roomStop(const Scene& scene, const RoomPlace& place);

/// At the pointer: "room 1.24 mm", and under it what stops it; why a place is left out.
QString roomAtPointer(const Scene& scene, const RoomMap& map, std::size_t place);

/// What is known of the surface as a whole.
struct RoomSummary {
  double lowerMm = 0, upperMm = 0;   ///< The least room lies between.
  std::optional<std::size_t> place;  ///< Where `upperMm` was found; none: nothing comes near.
  double shareWithout = 0;           ///< Of the area that has figures: where there is no room.
  double shareLeftOut = 0;           ///< Of the whole area.

  bool operator==(const RoomSummary&) const = default;
};
/// None: all of the surface is left out, or nothing is known.
std::optional<RoomSummary> summaryOf(const RoomMap& map);

/// How fine the map is and whether it goes on: "to 0.3 mm, going on to 0.1 mm".
QString fineness(double reachedMm, double wantedMm, bool goesOn);

}  // namespace swingroom
