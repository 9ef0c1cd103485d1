#include "core/room/room_field.h"

#include <algorithm>

namespace swingroom {
namespace {

constexpr double kUnbounded = std::numeric_limits<double>::infinity();
constexpr double kNearShare = 0.25;  ///< Of the resolution: bounds of nodes are not improved by less.
using Node = BoundingTree::Node;

}  // namespace

RoomField::RoomField(const BoundingTree& tree, double capMm)
    : tree_(tree),
      capMm_(capMm),
      parents_(tree.nodes().size(), 0),
      leaves_(tree.triangles().size(), 0),
      nodes_(tree.nodes().size()),
      pieces_(tree.triangles().size()),
      leftOut_(tree.triangles().size(), false),
      isTop_(tree.nodes().size(), false),
      nodeOpen_(tree.nodes().size(), kNothingOpen),
      pieceOpen_(tree.triangles().size(), kNothingOpen),
      nodeProven_(tree.nodes().size(), kUnbounded),
      pieceProven_(tree.triangles().size(), kUnbounded) {
  for (std::uint32_t n = 0; n < tree.nodes().size(); ++n) {
    const Node& node = tree.nodes()[n];
    if (node.isLeaf()) {
      std::fill_n(leaves_.begin() + node.first, node.count, n);
    } else {
      parents_[node.first] = parents_[node.first + 1] = n;
    }
  }
}

void RoomField::leaveOut(std::uint32_t piece) { leftOut_[piece] = true; }

void RoomField::setTops(const std::vector<std::uint32_t>& nodes) {
  for (const std::uint32_t node : nodes) isTop_[node] = true;
}

void RoomField::startStage(double resolutionMm) {
  resolutionMm_ = resolutionMm;
  std::fill(nodeProven_.begin(), nodeProven_.end(), kUnbounded);
  std::fill(pieceProven_.begin(), pieceProven_.end(), kUnbounded);
  for (std::uint32_t n = 0; n < tree_.nodes().size(); ++n) passDown(n);
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    const double upperMm = std::min(capMm_, pieces_[i].upperMm);
    const bool done = leftOut_[i] || pieces_[i].lowerMm >= upperMm - resolutionMm;
    pieceOpen_[i] = done ? kNothingOpen : openIf(upperMm);
  }
  // Children come after their parents.
  for (std::uint32_t n = static_cast<std::uint32_t>(tree_.nodes().size()); n-- > 0;) openAgain(n);
}

void RoomField::openAgain(std::uint32_t index) {
  const Node& node = tree_.nodes()[index];
  double openMm = kNothingOpen;
  if (node.isLeaf()) {
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) openMm = std::max(openMm, pieceOpen_[i]);
  } else {
    openMm = std::max(nodeOpen_[node.first], nodeOpen_[node.first + 1]);
  }
  nodeOpen_[index] = std::min(openMm, openIf(nodes_[index].upperMm));
}

/// From the node up, as far as something changes.
void RoomField::refreshUp(std::uint32_t index) {
  while (true) {
    const double before = nodeOpen_[index];
    openAgain(index);
    if (nodeOpen_[index] == before || isTop_[index] || index == 0) return;
    index = parents_[index];
  }
}

void RoomField::boundNode(std::uint32_t node, double upperMm, const RoomSource& source) {
  if (upperMm >= nodes_[node].upperMm) return;
  nodes_[node].upperMm = upperMm;
  nodes_[node].source = source;
  if (upperMm < nodeOpen_[node]) refreshUp(node);
}

void RoomField::boundPiece(std::uint32_t piece, double upperMm, const RoomSource& source, bool forAll) {
  if (forAll) boundNear(piece, upperMm, source);
  if (upperMm >= pieces_[piece].upperMm) return;
  pieces_[piece].upperMm = upperMm;
  pieces_[piece].source = source;
  if (upperMm >= pieceOpen_[piece]) return;
  pieceOpen_[piece] = openIf(upperMm);
  refreshUp(leaves_[piece]);
}

/// From a piece to any point near it room changes by no more than the way.
void RoomField::boundNear(std::uint32_t piece, double upperMm, const RoomSource& source) {
  for (std::uint32_t node = leaves_[piece];; node = parents_[node]) {
    const double farthestMm = upperMm + 2 * tree_.nodes()[node].radius;
    if (farthestMm >= nodeOpen_[node] - kNearShare * resolutionMm_) return;
    boundNode(node, farthestMm, source);
    if (isTop_[node] || node == 0) return;
  }
}

void RoomField::passDown(std::uint32_t index) {
  const Node& node = tree_.nodes()[index];
  const Bounds& known = nodes_[index];
  if (node.isLeaf()) {
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      if (known.upperMm >= pieces_[i].upperMm) continue;
      pieces_[i].upperMm = known.upperMm;
      pieces_[i].source = known.source;
      pieceOpen_[i] = std::min(pieceOpen_[i], openIf(known.upperMm));
    }
    return;
  }
  for (std::uint32_t child = node.first; child < node.first + 2; ++child) {
    if (known.upperMm >= nodes_[child].upperMm) continue;
    nodes_[child].upperMm = known.upperMm;
    nodes_[child].source = known.source;
    nodeOpen_[child] = std::min(nodeOpen_[child], openIf(known.upperMm));
  }
}

void RoomField::finishStage() {
  for (std::uint32_t n = 0; n < tree_.nodes().size(); ++n) {
    passDown(n);
    const Node& node = tree_.nodes()[n];
    if (node.isLeaf()) {
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) provePiece(i, nodeProven_[n]);
    } else {
      proveNode(node.first, nodeProven_[n]);
      proveNode(node.first + 1, nodeProven_[n]);
    }
  }
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    // What was done with before the stage has not been looked at in it.
    if (pieceOpen_[i] != kNothingOpen) pieces_[i].lowerMm = std::max(pieces_[i].lowerMm, pieceProven_[i]);
  }
}

}  // namespace swingroom
