#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "core/base/parallel.h"
#include "core/base/work_monitor.h"
#include "core/motion/sequence.h"
#include "core/sweep/part_geometry.h"

namespace swingroom {

/// What a place's figure says.
enum class RoomState : std::uint8_t {
  room,     ///< `lowerMm` and `upperMm` are its room.
  capped,   ///< No nearer than the cap, to the resolution: `upperMm` is the cap, `lowerMm` what is
            ///< proven of it.
  none,     ///< Something comes nearer than the required gap, or overlaps: there is no room at all.
            ///< `lowerMm` is 0; what is missing is not measured here, the check says it.
  zone,     ///< In a joint zone: left out. Both bounds are 0 and mean nothing.
  contact,  ///< Where another part may touch by design (a fixed joint, a contact that holds): left
            ///< out likewise.
};

/// A small flat piece of the part's surface, and how far it may grow, in any direction, before it
/// breaks a required gap with another part at any instant of any way.
struct RoomPlace {
  std::array<Vector3d, 3> corners_P;  ///< In the part's own frame, mm, as its triangle turns.
  std::uint32_t triangle = 0;         ///< The triangle of the part's mesh that it is a piece of.
  RoomState state = RoomState::room;
  /// At every point of the piece there is at least this much room, mm; never above the cap. 0 claims
  /// nothing: beside an upper bound above 0 it may be that there is none.
  double lowerMm = 0;
  /// At some point of the piece there is at most this much, mm.
  double upperMm = 0;
  /// Where `upperMm` was found; none if it is the cap, or the place is left out.
  struct Stop {
    PartId part;              ///< The other part.
    std::uint32_t way = 0;    ///< Which of the ways that were asked about.
    double instant = 0;       ///< Of that way. In a step of any order it only names the step.
    bool operator==(const Stop&) const = default;
  };
  std::optional<Stop> stop;

  bool operator==(const RoomPlace&) const = default;
};

/// Room of a part's whole surface.
struct RoomMap {
  PartId part;
  /// Every triangle, in order, each in one piece or several. A triangle without area is left out.
  std::vector<RoomPlace> places;
  double capMm = 0;
  /// upperMm - lowerMm is at most this at every place with state `room` that has no more than 1e-6
  /// of a step left to look closer at; 0: nothing has been looked at.
  double resolutionMm = 0;
  bool done = false;  ///< The resolution that was asked for is reached.

  bool operator==(const RoomMap&) const = default;
};

struct RoomSettings {
  double resolutionMm = 0.1;
  double capMm = 5;
  /// Triangles with a longer edge are split, mm; 0: a hundredth of the part's size.
  double pieceMm = 0;
  unsigned threads = defaultThreads();
};

/// What a room map is asked of. All of it has to outlive the call.
struct RoomSubject {
  const Assembly& assembly;
  const std::vector<Sequence>& ways;  ///< `waysToCheck`, or those of them that count.
  const AssemblyGeometry& geometry;
  PartId part;
};

/// The pair's rules hold as for the check: joint zones of the part are left out, and what may touch
/// by design is no obstacle (fixed joints, contacts where they hold, pairs whose findings are
/// allowed). Where another part's zone comes near, it must only not touch. The steps of any order
/// count with every combination of values.
/// What is told is about the surface as it stands: it is as if the place grew alone.
/// @param onStage  Called with each stage of the map, coarse to fine (1, 0.3, 0.1, ... mm), the last
///     of which is what is returned; on the calling thread. May be empty.
/// @returns After a cancel, which is heard within a tenth of a second, the last whole stage, not
///     `done`; without places if there was none.
/// @throws std::invalid_argument if the part has no mesh or a setting is not above 0.
/// The same bytes whatever the number of threads. Safe from several threads.
RoomMap roomMap(const RoomSubject& subject, const RoomSettings& settings, WorkMonitor& monitor,
                const std::function<void(const RoomMap&)>& onStage = {});

}  // namespace swingroom
