#include "core/room/node_descent.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace swingroom {
namespace {

using Node = BoundingTree::Node;

/// Boxes smaller than this share of what motion takes off their gap are left to shorter stretches.
constexpr double kTimeFirst = 0.2;
constexpr double kRingsOffMm = 1e-8;   ///< Lines that count as one may be off each other by less.
constexpr double kSlackShare = 0.25;   ///< Of the resolution: upper bounds are not improved by less.

TriangleCorners inOther(const PlacedTriangles& placed, std::size_t lane) {
  TriangleCorners t;
  for (std::size_t k = 0; k < 3; ++k) {
    t[k] = {placed.corner[k][0][lane], placed.corner[k][1][lane], placed.corner[k][2][lane]};
  }
  return t;
}

}  // namespace

NodeDescent::NodeDescent(const BoundingTree& pieces, RoomGoals& goals, const MotionPiece& motion,
                         const DescentTask& task)
    : other_(task.obstacle->surface->tree),
      pieces_(pieces),
      goals_(goals),
      task_(task),
      requiredMm_(task.obstacle->requiredMm),
      slackMm_(kSlackShare * task.resolutionMm),
      X_OP_(motion.middle.X_AB),
      lanes_(motion, pieces.nodes()[task.root]),
      margin_(1e-9 * (1 + other_.root().radius + pieces.root().radius + X_OP_.translation().norm() * 1e-3)),
      separation_(motion, lanes_, X_OP_ * pieces.nodes()[task.root].centre, pieces.nodes()[task.root].radius,
                  margin_) {}

void NodeDescent::run(const std::vector<NodePair>& pairs, std::vector<NodePair>& left) {
  left_ = &left;
  for (std::size_t i = 0; i < pairs.size(); i += kLanes) {
    take(&pairs[i], std::min(kLanes, pairs.size() - i));
    while (!stack_.empty()) {
      const Item item = stack_.back();
      stack_.pop_back();
      visit(item);
    }
  }
}

void NodeDescent::take(const NodePair* pairs, std::size_t count) {
  std::array<const Node*, kLanes> other, pieces;
  double largestOpenMm = kNothingOpen, leastNeededMm = std::numeric_limits<double>::infinity();
  for (std::size_t lane = 0; lane < kLanes; ++lane) {
    const NodePair& pair = pairs[std::min(lane, count - 1)];
    other[lane] = &other_.nodes()[pair.other];
    pieces[lane] = &pieces_.nodes()[pair.pieces];
    const double openMm = goals_.openMm(pair.pieces);
    largestOpenMm = std::max(largestOpenMm, openMm);
    if (openMm != kNothingOpen) leastNeededMm = std::min(leastNeededMm, neededMm(openMm));
  }
  if (largestOpenMm == kNothingOpen) return;
  LaneBounds bounds;
  compareBoxes(lanes_, other, pieces, {neededMm(largestOpenMm) + 2 * margin_, leastNeededMm}, bounds);
  tests_ += count;
  std::array<Item, kLanes> items;
  for (std::size_t lane = 0; lane < count; ++lane) {
    items[lane] = {pairs[lane], bounds.gapMm[lane] - margin_, std::max(0.0, bounds.lowerMm[lane] - margin_)};
    useRings(items[lane]);
    boundByCentres(items[lane]);
  }
  // The nearest is looked at first.
  std::sort(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(count),
            [](const Item& x, const Item& y) { return x.gapMm > y.gapMm; });
  for (std::size_t lane = 0; lane < count; ++lane) {
    if (!dismiss(items[lane])) stack_.push_back(items[lane]);
  }
}

void NodeDescent::useRings(Item& item) const {
  if (!task_.span->ringsOfOther || item.lowerMm >= neededMm(goals_.openMm(item.pair.pieces))) return;
  const double gapMm = ringGapMm(task_.span->ringsOfOther->ofNode(item.pair.other),
                                 task_.span->ringsOfPart->ofNode(item.pair.pieces)) -
                       kRingsOffMm;
  item.lowerMm = std::max(item.lowerMm, gapMm);
  item.gapMm = std::max(item.gapMm, gapMm);
}

/// Every point of either node is within its radius of its centre.
void NodeDescent::boundByCentres(const Item& item) {
  if (task_.obstacle->only) return;
  const Node& other = other_.nodes()[item.pair.other];
  const Node& pieces = pieces_.nodes()[item.pair.pieces];
  const double aroundMm = other.radius + pieces.radius;
  if (item.gapMm + aroundMm >= soughtMm(goals_.openMm(item.pair.pieces))) return;
  const double upperMm = (X_OP_ * pieces.centre - other.centre).norm() + aroundMm - requiredMm_ + margin_;
  if (upperMm < goals_.openMm(item.pair.pieces) - slackMm_) {
    goals_.boundNode(item.pair.pieces, upperMm, task_.source);
  }
}

/// Settles a pair, or leaves it for shorter stretches, if no more has to be known of it here.
bool NodeDescent::dismiss(const Item& item) {
  const double openMm = goals_.openMm(item.pair.pieces);
  if (openMm == kNothingOpen) return true;
  if (item.lowerMm >= neededMm(openMm)) {
    goals_.proveNode(item.pair.pieces, item.lowerMm - requiredMm_);
    return true;
  }
  if (item.gapMm < soughtMm(openMm) || !task_.canHalve) return false;
  const double size = other_.nodes()[item.pair.other].radius + pieces_.nodes()[item.pair.pieces].radius;
  if (item.gapMm - item.lowerMm < kTimeFirst * size) return false;
  left_->push_back(item.pair);
  return true;
}

void NodeDescent::visit(const Item& item) {
  if (dismiss(item)) return;
  const Node& other = other_.nodes()[item.pair.other];
  const Node& pieces = pieces_.nodes()[item.pair.pieces];
  goals_.passDown(item.pair.pieces);
  if (other.isLeaf() && pieces.isLeaf()) return compareLeaves(item);
  // Of two unlike sizes the larger is opened alone.
  const bool openOther = !other.isLeaf() && (pieces.isLeaf() || other.radius >= 0.5 * pieces.radius);
  const bool openPieces = !pieces.isLeaf() && (other.isLeaf() || pieces.radius >= 0.5 * other.radius);
  std::array<NodePair, kLanes> children;
  std::size_t count = 0;
  for (std::uint32_t i = 0; i < (openOther ? 2u : 1u); ++i) {
    for (std::uint32_t j = 0; j < (openPieces ? 2u : 1u); ++j) {
      children[count++] = {openOther ? other.first + i : item.pair.other,
                           openPieces ? pieces.first + j : item.pair.pieces};
    }
  }
  take(children.data(), count);
}

void NodeDescent::compareLeaves(const Item& item) {
  const Node& other = other_.nodes()[item.pair.other];
  const Node& leaf = pieces_.nodes()[item.pair.pieces];
  const PlacedTriangles placed = placeTriangles(lanes_, pieces_, leaf);
  bool settled = true;
  for (std::uint32_t i = other.first; i < other.first + other.count; ++i) {
    const double openMm = goals_.openMm(item.pair.pieces);
    if (openMm == kNothingOpen) return;
    const TriangleCorners& onOther = other_.triangles()[i];
    LaneBounds bounds;
    const LaneGoals wanted{neededMm(openMm) + 2 * margin_, leastNeededMm(leaf), soughtMm(openMm) + 2 * margin_};
    compareTriangles(lanes_, onOther, placed, wanted, bounds);
    tests_ += leaf.count;
    for (std::uint32_t lane = 0; lane < leaf.count; ++lane) {
      const std::uint32_t piece = leaf.first + lane;
      if (goals_.openMmOfPiece(piece) == kNothingOpen || !isAbout(piece)) continue;
      const double lowerMm = std::max(item.lowerMm, bounds.lowerMm[lane] - margin_);
      if (!comparePiece(piece, onOther, inOther(placed, lane), lowerMm, bounds.gapMm[lane] - margin_)) settled = false;
    }
  }
  if (!settled) left_->push_back(item.pair);
}

double NodeDescent::leastNeededMm(const Node& leaf) const {
  double leastMm = std::numeric_limits<double>::infinity();
  for (std::uint32_t i = leaf.first; i < leaf.first + leaf.count; ++i) {
    const double openMm = goals_.openMmOfPiece(i);
    if (openMm != kNothingOpen) leastMm = std::min(leastMm, neededMm(openMm));
  }
  return leastMm;
}

/// @returns Whether the piece is settled against the triangle.
bool NodeDescent::comparePiece(std::uint32_t piece, const TriangleCorners& onOther, const TriangleCorners& onPart,
                               double lowerMm, double apartMm) {
  if (lowerMm < neededMm(goals_.openMmOfPiece(piece)) &&
      (!task_.canHalve || apartMm < soughtMm(goals_.openMmOfPiece(piece)))) {
    const ClosestPoints closest = closestBetweenTriangles(onOther, onPart);
    ++tests_;
    goals_.boundPiece(piece, closest.distanceMm - requiredMm_ + margin_, task_.source, !task_.obstacle->only);
    const double openMm = goals_.openMmOfPiece(piece);
    if (openMm == kNothingOpen) return true;
    if (lowerMm < neededMm(openMm)) {
      lowerMm = std::max(lowerMm, lowerAlong(closest, onOther, onPart, neededMm(openMm)));
    }
  }
  if (lowerMm < neededMm(goals_.openMmOfPiece(piece)) && task_.canHalve) return false;
  goals_.provePiece(piece, lowerMm - requiredMm_);
  return true;
}

double NodeDescent::lowerAlong(const ClosestPoints& closest, const TriangleCorners& onOther,
                               const TriangleCorners& onPart, double wantedMm) const {
  if (closest.distanceMm <= 0) return 0;
  if (!lanes_.moves) return closest.distanceMm - margin_;
  if (closest.distanceMm < wantedMm) return 0;
  const double lowerMm =
      separation_.along((closest.onB - closest.onA) / closest.distanceMm, onOther, onPart, wantedMm);
  if (lowerMm >= wantedMm) return lowerMm;
  return std::max(lowerMm, separation_.acrossVelocity(onOther, onPart, wantedMm));
}

}  // namespace swingroom
