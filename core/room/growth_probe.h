#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "core/room/growth.h"
#include "core/room/room_engine.h"

namespace swingroom {

/// Asks of a part, made larger about a point, whether all of its surface has the room that it needs.
class GrowthProbe {
 public:
  /// @param withinMm  No question asks for more room than this, nor grows farther.
  GrowthProbe(const RoomSubject& subject, const Vector3d& centre_P, double withinMm, const GrowthSettings& settings,
              const WorkMonitor& monitor);

  /// By the distance of a piece's or node's farthest point from the centre as the part stands, and by the
  /// required gap, the room that it needs. Must not fall with the distance.
  using NeededRoom = std::function<double(double fromCentreMm, double requiredMm)>;

  /// A place with less room than it needs, or hardly more.
  struct Shortage {
    double roomMm = 0;  ///< That is left there.
    GrowthStop stop;
  };

  /// @param toleranceMm  Places with so much more than they need may be called short too.
  /// @returns Of several the one with least room. None: proven.
  std::optional<Shortage> ask(double scale, const NeededRoom& needed, double toleranceMm) const;

  double farthestMm() const { return farthestMm_; }  ///< From the centre.
  bool empty() const { return judged_.tree.empty(); }
  /// A piece that is inside another part as everything stands.
  std::optional<Shortage> swallowed() const;

 private:
  /// Obstacles with one required gap.
  struct Kind {
    double requiredMm = 0;
    std::vector<RoomObstacle> obstacles;
    std::vector<std::uint32_t> places;  ///< Of the obstacles, among all.
  };

  static std::vector<Kind> kindsOf(const std::vector<RoomObstacle>& obstacles);
  std::optional<Shortage> askOf(const Kind& kind, const BoundingTree& tree, const NeededRoom& needed,
                                double toleranceMm) const;
  GrowthStop stopOf(std::uint32_t piece, const RoomSource& source) const;

  Vector3d centre_P_;
  unsigned threads_;
  const WorkMonitor& monitor_;
  std::vector<SurfacePiece> pieces_;
  JudgedPieces judged_;
  RoomObstacles obstacles_;
  std::vector<Kind> kinds_;
  std::vector<std::uint32_t> groups_;
  std::vector<double> nodeFrom_, pieceFrom_;  ///< Distances from the centre; of what is left out, negative.
  double farthestMm_ = 0;
};

}  // namespace swingroom
