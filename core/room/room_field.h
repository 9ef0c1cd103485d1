#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "core/tree/bounding_tree.h"

namespace swingroom {

/// What is known of the room of each piece of a surface, by the nodes of the pieces' tree: what is said of a
/// node holds for every piece below it. Lengths in mm. A stage brings every piece's bracket to its resolution.
/// Subtrees that have no node in common may be written by different threads.
class RoomField {
 public:
  /// Where an upper bound comes from; without obstacle: from the cap.
  struct Source {
    static constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();
    std::uint32_t obstacle = kNone;
    double instant = 0;
  };
  struct Bounds {
    double lowerMm = -std::numeric_limits<double>::infinity();
    double upperMm = std::numeric_limits<double>::infinity();
    Source source;
  };

  /// @param tree  Kept.
  RoomField(const BoundingTree& tree, double capMm);

  /// The piece is of no interest; before the first stage.
  void leaveOut(std::uint32_t piece);
  /// What is learned below one of these nodes is not told to those above it until the next stage.
  void setTops(const std::vector<std::uint32_t>& nodes);

  /// Nothing of this stage is proven yet. Pieces whose bracket is narrow enough are done with.
  void startStage(double resolutionMm);
  /// What was proven in the stage holds: every obstacle has been looked at.
  void finishStage();

  /// The largest upper bound of the pieces that are not done with; minus infinity: all are.
  double openMm(std::uint32_t node) const { return nodeOpen_[node]; }
  double openMmOfPiece(std::uint32_t piece) const { return pieceOpen_[piece]; }

  /// Every piece below the node has a point with no more room.
  void boundNode(std::uint32_t node, double upperMm, const Source& source);
  void boundPiece(std::uint32_t piece, double upperMm, const Source& source);
  /// What is known of the node is told to its children, or to its pieces.
  void passDown(std::uint32_t node);

  /// Against one obstacle over one stretch of time every piece below the node has at least so much.
  void proveNode(std::uint32_t node, double lowerMm) { lowest(nodeProven_[node], lowerMm); }
  void provePiece(std::uint32_t piece, double lowerMm) { lowest(pieceProven_[piece], lowerMm); }

  const Bounds& ofPiece(std::uint32_t piece) const { return pieces_[piece]; }
  std::uint32_t parentOf(std::uint32_t node) const { return parents_[node]; }
  std::uint32_t leafOf(std::uint32_t piece) const { return leaves_[piece]; }

 private:
  static void lowest(double& value, double other) { value = other < value ? other : value; }
  /// Where there is no room at all nothing more has to be known.
  static double openIf(double upperMm) {
    return upperMm > 0 ? upperMm : -std::numeric_limits<double>::infinity();
  }
  void openAgain(std::uint32_t node);
  void refreshUp(std::uint32_t node);

  const BoundingTree& tree_;
  double capMm_;
  std::vector<std::uint32_t> parents_, leaves_;
  std::vector<Bounds> nodes_;   ///< Lower bounds unused.
  std::vector<Bounds> pieces_;
  std::vector<bool> leftOut_, isTop_;
  std::vector<double> nodeOpen_, pieceOpen_;
  std::vector<double> nodeProven_, pieceProven_;
};

}  // namespace swingroom
