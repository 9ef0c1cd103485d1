#pragma once

#include <cstdint>
#include <vector>

#include "core/room/space/swept_target.h"

namespace swingroom {

/// A piece of a target's path. The points of a ball go along straight lines from its start to its end, but for
/// the bend.
struct PathPiece {
  std::uint32_t target = 0, path = 0;
  std::uint32_t index = 0;
  std::uint32_t level = 0;
  double bendMm = 0;

  PathPiece half(std::uint32_t which) const { return {target, path, 2 * index + which, level + 1, bendMm / 4}; }
};

/// The pieces of all targets' paths that come near a ball of the region, and the nodes of their trees
/// that do. Everything else stays farther than what was asked about.
class NearPaths {
 private:
  friend class DistanceField;

  struct Entry {
    PathPiece piece;
    std::uint32_t firstNode = 0, nodeCount = 0;
    double centreMm = 0;  ///< Proven of the centre: its distance less what is to be kept.
  };

  Vector3d centre_ = Vector3d::Zero();
  double radius_ = 0;
  std::vector<Entry> entries_;  ///< By `centreMm`.
  std::vector<std::uint32_t> nodes_;
};

/// The same for a small ball, by triangles.
class NearTriangles {
 private:
  friend class DistanceField;

  struct Entry {
    float centreMm;  ///< As above; rounded down.
    std::uint32_t piece, triangle;
  };

  Vector3d centre_ = Vector3d::Zero();
  double radius_ = 0;
  std::vector<PathPiece> pieces_;
  std::vector<Entry> entries_;  ///< By `centreMm`.
};

/// How much farther than needed each point of the region stays from all targets over all their paths:
/// the least of distance to a target's surface less its `keptMm`. It changes by no more than 1 a mm.
/// Distances are to surfaces, whichever side. Const from any thread.
class DistanceField {
 public:
  /// @param targets  Outlive this.
  explicit DistanceField(const std::vector<SweptTarget>& targets) : targets_(&targets) {}

  /// All paths, for a ball that holds all of the region.
  NearPaths everything(const Vector3d& centre, double radius, double withinMm) const;
  /// What of `near` comes nearer than kept + `withinMm` to points within `radius` of `centre`, a ball
  /// in the one that `near` is for.
  NearPaths narrowed(const NearPaths& near, const Vector3d& centre, double radius, double withinMm) const;
  NearTriangles closeUp(const NearPaths& near, const Vector3d& centre, double radius, double withinMm) const;
  NearTriangles narrowed(const NearTriangles& near, const Vector3d& centre, double radius, double withinMm) const;

  /// Never above the true value at `p`, and below it by at most 1e-3 mm; below -capMm it is only that, and from
  /// above it is cut off at `belowMm`.
  /// @param near  For a ball that holds `p`, with a `withinMm` of at least `belowMm`.
  double at(const Vector3d& p, const NearPaths& near, double capMm, double belowMm) const;
  double at(const Vector3d& p, const NearTriangles& near, double capMm, double belowMm) const;

 private:
  struct Line {
    Vector3d a, b;
  };
  Line lineOf(const PathPiece& piece, const Vector3d& p) const;
  const SweptTarget& targetOf(const PathPiece& piece) const { return (*targets_)[piece.target]; }
  const RegionPath& pathOf(const PathPiece& piece) const { return targetOf(piece).paths[piece.path]; }
  bool isFine(const PathPiece& piece) const;
  /// What is taken off the distance of its line.
  double lessMm(const PathPiece& piece) const {
    return targetOf(piece).keptMm + piece.bendMm + pathOf(piece).slackMm();
  }

  void narrowEntry(const NearPaths& from, const NearPaths::Entry& entry, const PathPiece& piece, double withinMm,
                   NearPaths& to) const;
  template <typename LeastOf>
  void lookAt(const PathPiece& piece, const Vector3d& p, const Line& line, const LeastOf& leastOf, double& best) const;

  const std::vector<SweptTarget>* targets_;
};

}  // namespace swingroom
