#include "core/room/room_search.h"

#include <algorithm>

#include "core/sweep/interval_gap.h"

namespace swingroom {
namespace {

/// Of a phase: shorter stretches are not looked at. At print speeds this is far below any resolution.
constexpr double kShortest = 1e-9;
constexpr std::uint32_t kGroupPieces = 512;

/// @returns The number of pieces below the node.
std::uint32_t addGroups(const BoundingTree& pieces, std::uint32_t index, std::vector<std::uint32_t>& groups) {
  const BoundingTree::Node& node = pieces.nodes()[index];
  std::uint32_t count = node.count;
  if (!node.isLeaf()) {
    const std::array<std::uint32_t, 2> below{addGroups(pieces, node.first, groups),
                                             addGroups(pieces, node.first + 1, groups)};
    count = below[0] + below[1];
    for (std::uint32_t i = 0; i < 2 && count > kGroupPieces; ++i) {
      if (below[i] <= kGroupPieces) groups.push_back(node.first + i);
    }
  }
  if (index == 0 && count <= kGroupPieces) groups.push_back(0);
  return count;
}

}  // namespace

std::vector<std::uint32_t> searchGroups(const BoundingTree& pieces) {
  std::vector<std::uint32_t> groups;
  if (!pieces.empty()) addGroups(pieces, 0, groups);
  return groups;
}

RoomSearch::RoomSearch(const BoundingTree& pieces, const std::vector<RoomObstacle>& obstacles, RoomGoals& goals,
                       double resolutionMm, const WorkMonitor& monitor)
    : pieces_(pieces), obstacles_(obstacles), goals_(goals), resolutionMm_(resolutionMm), monitor_(monitor) {}

void RoomSearch::run(std::uint32_t node) {
  root_ = node;
  now_.clear();
  for (std::uint32_t o = 0; o < obstacles_.size(); ++o) {
    for (std::uint32_t s = 0; s < obstacles_[o].spans.size(); ++s) addSpan(o, s, node);
  }
  while (!now_.empty()) {
    next_.clear();
    for (Cell& cell : now_) {
      if (monitor_.cancelled() || goals_.openMm(node) == kNothingOpen) return;
      look(cell);
    }
    std::swap(now_, next_);
  }
}

void RoomSearch::addSpan(std::uint32_t obstacle, std::uint32_t span, std::uint32_t node) {
  const ObstacleSpan& own = obstacles_[obstacle].spans[span];
  const std::size_t freedoms = own.phase.anyOrder ? own.phase.motion->freedoms() : 1;
  now_.push_back({obstacle, span, std::vector<double>(freedoms, own.low), std::vector<double>(freedoms, own.high),
                  {{0, node}}});
}

void RoomSearch::look(Cell& cell) {
  const RoomObstacle& obstacle = obstacles_[cell.obstacle];
  const ObstacleSpan& span = obstacle.spans[cell.span];
  const bool constant = span.phase.motion->isConstant();
  std::vector<double> middle(cell.low.size());
  double widest = 0;
  for (std::size_t f = 0; f < middle.size(); ++f) {
    middle[f] = 0.5 * (cell.low[f] + cell.high[f]);
    widest = std::max(widest, cell.high[f] - cell.low[f]);
  }
  const bool together = !span.phase.anyOrder;
  MotionPiece piece{obstacle.seenFromOther(together ? span.phase.motion->at(middle[0]) : span.phase.motion->at(middle)),
                    0.5 * widest, together};
  if (constant) piece.halfWidth = 0;
  if (!together) {
    piece.halfWidth = 1;
    for (MovingAxis& axis : piece.middle.axes) {
      const double half = 0.5 * (cell.high[axis.freedom] - cell.low[axis.freedom]);
      axis.turnRateRad *= half;
      axis.slideRateMm *= half;
    }
  }
  DescentTask task;
  task.obstacle = &obstacle;
  task.span = &span;
  const double part = together ? middle[0] : 0.5;
  task.source = {cell.obstacle, span.phase.from + part * (span.phase.to - span.phase.from)};
  task.root = root_;
  task.resolutionMm = resolutionMm_;
  task.canHalve = !constant && widest > kShortest;
  NodeDescent descent(pieces_, goals_, piece, task);
  std::vector<NodePair> left;
  descent.run(cell.pairs, left);
  tests_ += descent.tests();
  if (left.empty()) return;
  cell.pairs = std::move(left);
  halve(cell, piece.middle);
}

/// In a step of any order, along the freedom that can move the pieces farthest.
void RoomSearch::halve(Cell& cell, const MotionAtInstant& middle) {
  std::size_t widest = 0;
  double farthestMm = -1;
  for (std::size_t f = 0; f < cell.low.size() && cell.low.size() > 1; ++f) {
    MotionAtInstant alone{middle.X_AB, {}};
    for (const MovingAxis& axis : middle.axes) {
      if (axis.freedom == f) alone.axes.push_back(axis);
    }
    const BoundingTree::Node& node = pieces_.nodes()[root_];
    const double travelMm = TravelBounds(alone, 1).travelMm(middle.X_AB * node.centre, node.radius);
    if (travelMm > farthestMm) widest = f, farthestMm = travelMm;
  }
  const double at = 0.5 * (cell.low[widest] + cell.high[widest]);
  next_.push_back(cell);
  next_.back().high[widest] = at;
  cell.low[widest] = at;
  next_.push_back(std::move(cell));
}

}  // namespace swingroom
