#pragma once

#include <cstdint>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/room/node_descent.h"
#include "core/room/room_goals.h"
#include "core/room/room_obstacles.h"

namespace swingroom {

/// The largest subtrees of no more than 512 pieces: each is searched for itself, so that what comes out does
/// not depend on how many are searched at once.
std::vector<std::uint32_t> searchGroups(const BoundingTree& pieces);

/// Brings the pieces below one node of the tree to a resolution against all obstacles: branch and bound over
/// (nodes of the pieces) x (nodes of the obstacle) x (stretch of time). A pair of nodes is settled over a
/// stretch when they stay farther apart than the greatest upper bound below the node, less the resolution;
/// upper bounds come from the distances at the stretches' middles, which are halved breadth first, so that
/// they look at all of the time before they look close.
/// Nothing but the subtree is written: any number of subtrees may be searched at once.
class RoomSearch {
 public:
  RoomSearch(const BoundingTree& pieces, const std::vector<RoomObstacle>& obstacles, RoomGoals& goals,
             double resolutionMm, const WorkMonitor& monitor);

  /// After a cancel what is proven means nothing.
  void run(std::uint32_t node);

  std::uint64_t tests() const { return tests_; }  ///< Of pairs of nodes.

 private:
  /// A stretch of time with what is not settled in it.
  struct Cell {
    std::uint32_t obstacle = 0, span = 0;
    std::vector<double> low, high;  ///< Of the phase; one for each freedom if these go in any order.
    std::vector<NodePair> pairs;
  };

  void addSpan(std::uint32_t obstacle, std::uint32_t span, std::uint32_t node);
  void look(Cell& cell);
  void halve(Cell& cell, const MotionAtInstant& middle);

  const BoundingTree& pieces_;
  const std::vector<RoomObstacle>& obstacles_;
  RoomGoals& goals_;
  double resolutionMm_;
  const WorkMonitor& monitor_;
  std::uint32_t root_ = 0;
  std::vector<Cell> now_, next_;
  std::uint64_t tests_ = 0;
};

}  // namespace swingroom
