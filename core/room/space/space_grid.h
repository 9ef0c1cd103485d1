#pragma once

#include <Eigen/Geometry>
#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "core/base/parallel.h"
#include "core/base/work_monitor.h"
#include "core/room/space/distance_field.h"
#include "core/room/space/stage_progress.h"

namespace swingroom {

/// Corners and centres of the cubes of a grid: the body-centred cubic lattice. Its tetrahedra are all
/// alike: two edges of the pitch, four of 0.866 of it, and a ball of `kBallShare` of the pitch round each.
class SpaceGrid {
 public:
  /// Radius of the ball through a tetrahedron's corners: sqrt(5) / 4 of the pitch. No three points of
  /// one need a larger ball round them.
  static constexpr double kBallShare = 0.5590169943749475;

  /// Holds `box` with two cubes to spare on each side.
  SpaceGrid(const Eigen::AlignedBox3d& box, double pitchMm);

  /// How many there would be.
  static double nodesIn(const Eigen::AlignedBox3d& box, double pitchMm);

  double pitchMm() const { return pitchMm_; }
  /// Cubes along each axis, each with the node at its low corner and the one in its middle.
  const std::array<std::uint32_t, 3>& cubes() const { return cubes_; }
  std::size_t cubeCount() const { return std::size_t{cubes_[0]} * cubes_[1] * cubes_[2]; }
  std::size_t nodeCount() const { return 2 * cubeCount(); }
  std::uint32_t cubeAt(std::uint32_t i, std::uint32_t j, std::uint32_t k) const {
    return (k * cubes_[1] + j) * cubes_[0] + i;
  }
  /// Nodes are the corners, by cube, then the middles.
  std::uint32_t middleOf(std::uint32_t cube) const { return static_cast<std::uint32_t>(cubeCount()) + cube; }
  bool isMiddle(std::uint32_t node) const { return node >= cubeCount(); }
  std::uint32_t cubeOf(std::uint32_t node) const {
    return isMiddle(node) ? node - static_cast<std::uint32_t>(cubeCount()) : node;
  }
  std::array<std::uint32_t, 3> placeOf(std::uint32_t cube) const {
    return {cube % cubes_[0], cube / cubes_[0] % cubes_[1], cube / cubes_[0] / cubes_[1]};
  }
  Vector3d positionOf(std::uint32_t node) const;
  /// One of the nodes round a point, if it is in the grid.
  std::optional<std::uint32_t> nodeNear(const Vector3d& p) const;
  /// Of the nodes of `size` cubes each way from (i, j, k).
  Vector3d centreOf(std::uint32_t i, std::uint32_t j, std::uint32_t k, std::uint32_t size) const;
  double radiusOf(std::uint32_t size) const;

 private:
  Vector3d low_;
  double pitchMm_;
  std::array<std::uint32_t, 3> cubes_;
};

/// What bounds a space beside the targets. Each value changes by no more than 1 a mm; at least 0: allowed.
struct SpaceBounds {
  /// How far inside the chosen box or the grown part. Need only be right between -capMm and capMm; may be empty.
  std::function<double(const Vector3d& p, double capMm)> within;
  /// What is to be kept as the targets are; may be empty.
  std::function<double(const Vector3d& p)> outside;
  /// Where this is above 0 the targets do not count; may be empty.
  std::function<double(const Vector3d& p)> opened;
};

/// Where an edge of the lattice leaves what is free.
struct EdgePoint {
  Vector3d point;
  float spareMm = 0;  ///< How much more than needed it keeps, as far as that matters (`kMostSpareMm`).
};
constexpr double kMostSpareMm = 0.02;

/// Which nodes of the grid are free, and by how much.
class SpaceValues {
 public:
  /// Looks at the whole grid, coarse cubes first.
  /// After a cancel what is there means nothing.
  SpaceValues(const SpaceGrid& grid, const DistanceField& field, SpaceBounds bounds, unsigned threads,
              StageProgress& progress);

  const SpaceGrid& grid() const { return *grid_; }
  bool isFree(std::uint32_t node) const { return values_[node] >= kLeastMm; }
  /// Takes a node out of the space.
  void block(std::uint32_t node) { values_[node] = -static_cast<float>(grid_->pitchMm()); }

  /// The point between the free node and its neighbour, which is not, where what is free ends: never
  /// beyond it, and short of it by at most a thousandth of a mm where it is even.
  EdgePoint edgeOf(std::uint32_t freeNode, std::uint32_t blockedNode) const;

 private:
  /// A free node has at least so much, so that corners of the surface keep off it, mm.
  static constexpr double kLeastMm = 0.004;

  using Place = std::array<std::uint32_t, 3>;  ///< A cube.
  struct Block {
    std::uint32_t index;
    NearTriangles near;
  };

  /// Of targets and `outside` alone.
  template <typename Near>
  double keptAt(const Vector3d& p, const Near& near, double capMm, double belowMm) const;
  template <typename Near>
  double valueAt(const Vector3d& p, const Near& near, double capMm) const;
  template <typename Near>
  bool isDecided(const Place& low, std::uint32_t size, const Near& near);
  void goInto(const Place& low, std::uint32_t size, const NearPaths& near, std::vector<Block>& blocks);
  void goInto(const Place& low, std::uint32_t size, const NearTriangles& near, std::vector<Block>& blocks);
  void lookAtNodes(const Place& low, const NearTriangles& near);
  void fill(const Place& low, std::uint32_t size, double value);
  std::uint32_t blockOf(std::uint32_t cube) const;

  const SpaceGrid* grid_;
  const DistanceField* field_;
  SpaceBounds bounds_;
  const WorkMonitor* monitor_;
  Place blocks_;
  std::vector<float> values_;
  std::vector<std::int32_t> nearOfBlock_;  ///< Into `nears_`; -1: decided as a whole.
  std::vector<NearTriangles> nears_;
};

}  // namespace swingroom
