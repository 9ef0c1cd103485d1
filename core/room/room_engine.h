#pragma once

#include <cstdint>
#include <vector>

#include "core/room/room_field.h"
#include "core/room/room_map.h"
#include "core/room/room_obstacles.h"
#include "core/room/room_pieces.h"

namespace swingroom {

/// One part's pieces, what they have to keep clear of, and what is known of their room so far.
class RoomEngine {
 public:
  /// What it prepares may take a second or two; after a cancel it is of no use.
  RoomEngine(const RoomSubject& subject, const RoomSettings& settings, const WorkMonitor& monitor);

  /// How many times `refine` advances the monitor.
  std::size_t groups() const { return groups_.size(); }

  /// Brings every piece's bracket to the resolution.
  /// @returns False after a cancel: then nothing is changed that was known before.
  bool refine(double resolutionMm, WorkMonitor& monitor);

  /// What is known after the last `refine`.
  RoomMap map() const;

  std::uint64_t tests() const { return tests_; }
  const RoomObstacles& obstacles() const { return obstacles_; }
  const JudgedPieces& judged() const { return judged_; }
  const RoomField& field() const { return field_; }

 private:
  void tellRoom(RoomPlace& place, std::uint32_t piece) const;

  PartId part_;
  RoomSettings settings_;
  std::vector<SurfacePiece> pieces_;
  JudgedPieces judged_;
  RoomObstacles obstacles_;
  RoomField field_;
  std::vector<std::uint32_t> groups_;  ///< Nodes whose subtrees are searched each for itself.
  std::uint64_t tests_ = 0;
  double reachedMm_ = 0;
};

/// Resolutions of the stages, coarse to fine, mm.
std::vector<double> stagesTo(double resolutionMm);

}  // namespace swingroom
