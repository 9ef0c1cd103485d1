#pragma once

#include <cstdint>
#include <optional>

#include "core/room/room_map.h"

namespace swingroom {

/// What stops a part from growing.
struct GrowthStop {
  PartId part;            ///< The other part.
  std::uint32_t way = 0;  ///< Which of the ways that were asked about.
  double instant = 0;     ///< Of that way; in a step of any order it only names the step.
  Vector3d place_P = Vector3d::Zero();  ///< On the part as it stands, before growing, in its frame.
  std::uint32_t triangle = 0;           ///< Of the part's mesh.

  bool operator==(const GrowthStop&) const = default;
};

/// How far a part may grow: a scale, or mm of offset.
struct GrowthLimit {
  /// A required gap is broken already as the part stands: there is no growth, `proven` is where it stands.
  bool none = false;
  /// From where the part stands up to here everything is proven to stay clear, in every mode and all the way.
  double proven = 0;
  /// Here a required gap is broken. None: nothing is found up to the most that was asked for.
  std::optional<double> broken;
  std::optional<GrowthStop> stop;  ///< What is too near at `broken`.
  bool done = false;               ///< The bracket is as narrow as asked. False after a cancel, or if it is
                                   ///< too close to tell.

  bool operator==(const GrowthLimit&) const = default;
};

struct GrowthSettings {
  double resolutionMm = 0.02;  ///< Of the bracket, at the place of the part that is farthest from the point.
  double mostScale = 2;
  double mostOffsetMm = 5;
  double pieceMm = 0;  ///< As for the map.
  unsigned threads = defaultThreads();
};

/// The largest uniform scale of the part about a point: from 1 on, without skipping what is in between.
/// Pieces in joint zones and where another part touches by design are left out, as in the map; zones and
/// parts that are fixed to it are not scaled along.
///
/// A point that moves along a straight line of length l and is at both its ends at least sqrt(r^2 + l^2 / 4)
/// from another is at least r from it all along: so scales are proven by looks at single ones.
/// @param centre_P  In the part's frame, mm.
/// @throws std::invalid_argument if the part has no mesh or a setting is out of its domain.
/// The same bytes whatever the number of threads.
GrowthLimit scaleLimit(const RoomSubject& subject, const Vector3d& centre_P, const GrowthSettings& settings,
                       WorkMonitor& monitor);

/// The largest offset of the part's whole surface, outside the same places: their least room. mm.
GrowthLimit offsetLimit(const RoomSubject& subject, const GrowthSettings& settings, WorkMonitor& monitor);

}  // namespace swingroom
