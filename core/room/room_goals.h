#pragma once

#include <cstdint>
#include <limits>

namespace swingroom {

/// Where an upper bound of room comes from; without obstacle: from the cap.
struct RoomSource {
  static constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();
  std::uint32_t obstacle = kNone;
  double instant = 0;
};

/// Nothing is asked of a node or piece.
constexpr double kNothingOpen = -std::numeric_limits<double>::infinity();

/// What a search wants to know of the room of each piece of a surface, by the nodes of the pieces' tree, and
/// where it tells what it finds. Lengths in mm. Subtrees that have no node in common may be asked and told
/// by different threads.
class RoomGoals {
 public:
  virtual ~RoomGoals() = default;

  /// Pieces below the node have to be proven to have this much room, less the search's resolution; points
  /// with less are looked for. `kNothingOpen`: no more has to be known.
  virtual double openMm(std::uint32_t node) const = 0;
  virtual double openMmOfPiece(std::uint32_t piece) const = 0;

  /// Every piece below the node has a point with no more room.
  virtual void boundNode(std::uint32_t node, double upperMm, const RoomSource& source) = 0;
  /// @param forAll  The other surface is an obstacle to every piece: near ones have hardly more room.
  virtual void boundPiece(std::uint32_t piece, double upperMm, const RoomSource& source, bool forAll) = 0;
  /// What is known of the node is told to its children, or to its pieces.
  virtual void passDown(std::uint32_t node) = 0;

  /// Against one obstacle over one stretch of time every piece below the node has at least so much.
  virtual void proveNode(std::uint32_t node, double lowerMm) = 0;
  virtual void provePiece(std::uint32_t piece, double lowerMm) = 0;
};

}  // namespace swingroom
