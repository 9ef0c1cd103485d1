#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "core/room/room_map.h"
#include "core/room/room_pieces.h"
#include "core/sweep/plan.h"
#include "core/sweep/revolved.h"

namespace swingroom {

/// One step, or some of it, in which an obstacle counts.
struct ObstacleSpan {
  Phase phase;
  double low = 0, high = 1;  ///< Of the phase.
  /// If all of it is a turn about one line: both surfaces turned round it.
  std::shared_ptr<const RevolvedTree> ringsOfOther, ringsOfPart;
};

/// What the part has to keep clear of: a surface of another part, through some steps of one way.
struct RoomObstacle {
  PartId part;  ///< The other.
  std::uint32_t way = 0;
  double requiredMm = 0;
  std::shared_ptr<const Surface> surface;  ///< Of the other, in its frame.
  bool otherIsB = false;                   ///< It is the second part of the plan's motions.
  std::vector<ObstacleSpan> spans;
  std::shared_ptr<const PairPlan> plan;  ///< Keeps the motions.
  /// By the tree's order of pieces: which of them it is about. Null: all.
  std::shared_ptr<const std::vector<bool>> only;

  /// The part's motion as seen from the other, whose frame stands still.
  MotionAtInstant seenFromOther(const MotionAtInstant& motion) const {
    return otherIsB ? seenFromB(motion) : motion;
  }
};

/// A piece that is inside another part's material though nothing crosses it.
struct SwallowedPiece {
  std::uint32_t piece = 0;  ///< In the tree's order.
  std::size_t obstacle = 0;
  double instant = 0;
};

struct RoomObstacles {
  std::vector<RoomObstacle> obstacles;
  /// By the tree's order: pieces where another part may touch by design.
  std::vector<bool> touched;
  std::vector<SwallowedPiece> swallowed;
};

/// Follows the plans of the check (`planPair`): surfaces outside zones by the required gap, those inside
/// the other's zones must only not touch, contacts count where they do not hold. Steps in which the two
/// are too far apart to matter are left out.
/// @param withinMm  Nothing counts that is farther than this above its required gap.
RoomObstacles obstaclesFor(const RoomSubject& subject, const JudgedPieces& pieces, double withinMm,
                           unsigned threads, const WorkMonitor& monitor);

/// The obstacles with the part's pieces made larger or smaller: what is kept of them for parts that turn
/// about one line is made anew. The tree's order is the same.
std::vector<RoomObstacle> turnedWith(const BoundingTree& pieces, const std::vector<RoomObstacle>& obstacles);

}  // namespace swingroom
