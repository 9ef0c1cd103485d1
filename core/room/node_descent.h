#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/room/room_goals.h"
#include "core/room/room_obstacles.h"
#include "core/sweep/box_lanes.h"
#include "core/sweep/separation.h"

namespace swingroom {

/// Two nodes, one of the obstacle's tree and one of the pieces', that are not settled over some stretch.
struct NodePair {
  std::uint32_t other = 0, pieces = 0;
};

/// What a descent needs to know beside the motion.
struct DescentTask {
  const RoomObstacle* obstacle = nullptr;
  const ObstacleSpan* span = nullptr;
  RoomSource source;      ///< Of what is found at the middle.
  std::uint32_t root = 0;        ///< Node of the pieces that holds all that is asked about.
  double resolutionMm = 0;
  bool canHalve = false;  ///< What is left over is looked at again in shorter stretches.
};

/// One stretch of time: descends both trees at once from the pairs that are given, settles in the field what
/// it can, finds upper bounds at the middle, and leaves the rest.
class NodeDescent {
 public:
  NodeDescent(const BoundingTree& pieces, RoomGoals& goals, const MotionPiece& motion, const DescentTask& task);

  /// @param left  Gains what is not settled.
  void run(const std::vector<NodePair>& pairs, std::vector<NodePair>& left);

  std::uint64_t tests() const { return tests_; }

 private:
  struct Item {
    NodePair pair;
    double gapMm = 0, lowerMm = 0;  ///< At the middle; over the whole stretch.
  };

  double neededMm(double openMm) const { return openMm - task_.resolutionMm + requiredMm_; }
  double soughtMm(double openMm) const { return openMm - slackMm_ + requiredMm_; }

  void take(const NodePair* pairs, std::size_t count);
  void useRings(Item& item) const;
  void boundByCentres(const Item& item);
  bool dismiss(const Item& item);
  void visit(const Item& item);
  void compareLeaves(const Item& item);
  double leastNeededMm(const BoundingTree::Node& leaf) const;
  bool comparePiece(std::uint32_t piece, const TriangleCorners& onOther, const TriangleCorners& onPart,
                    double lowerMm, double apartMm);
  double lowerAlong(const ClosestPoints& closest, const TriangleCorners& onOther, const TriangleCorners& onPart,
                    double wantedMm) const;
  bool isAbout(std::uint32_t piece) const { return !task_.obstacle->only || (*task_.obstacle->only)[piece]; }

  const BoundingTree& other_;
  const BoundingTree& pieces_;
  RoomGoals& goals_;
  const DescentTask& task_;
  double requiredMm_, slackMm_;
  Pose X_OP_;
  LaneMotion lanes_;
  double margin_;
  Separation separation_;
  std::vector<Item> stack_;
  std::vector<NodePair>* left_ = nullptr;
  std::uint64_t tests_ = 0;
};

}  // namespace swingroom
