#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "core/room/room_goals.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// What is known of the room of each piece of a surface, by the nodes of the pieces' tree: what is said of a
/// node holds for every piece below it. A stage brings every piece's bracket to its resolution.
class RoomField : public RoomGoals {
 public:
  struct Bounds {
    double lowerMm = -std::numeric_limits<double>::infinity();
    double upperMm = std::numeric_limits<double>::infinity();
    RoomSource source;
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

  /// The largest upper bound of the pieces that are not done with.
  double openMm(std::uint32_t node) const override { return nodeOpen_[node]; }
  double openMmOfPiece(std::uint32_t piece) const override { return pieceOpen_[piece]; }
  void boundNode(std::uint32_t node, double upperMm, const RoomSource& source) override;
  void boundPiece(std::uint32_t piece, double upperMm, const RoomSource& source, bool forAll) override;
  void passDown(std::uint32_t node) override;
  void proveNode(std::uint32_t node, double lowerMm) override { lowest(nodeProven_[node], lowerMm); }
  void provePiece(std::uint32_t piece, double lowerMm) override { lowest(pieceProven_[piece], lowerMm); }

  const Bounds& ofPiece(std::uint32_t piece) const { return pieces_[piece]; }

 private:
  static void lowest(double& value, double other) { value = other < value ? other : value; }
  /// Where there is no room at all nothing more has to be known.
  static double openIf(double upperMm) {
    return upperMm > 0 ? upperMm : kNothingOpen;
  }
  void boundNear(std::uint32_t piece, double upperMm, const RoomSource& source);
  void openAgain(std::uint32_t node);
  void refreshUp(std::uint32_t node);

  const BoundingTree& tree_;
  double capMm_;
  double resolutionMm_ = 0;
  std::vector<std::uint32_t> parents_, leaves_;
  std::vector<Bounds> nodes_;   ///< Lower bounds unused.
  std::vector<Bounds> pieces_;
  std::vector<bool> leftOut_, isTop_;
  std::vector<double> nodeOpen_, pieceOpen_;
  std::vector<double> nodeProven_, pieceProven_;
};

}  // namespace swingroom
