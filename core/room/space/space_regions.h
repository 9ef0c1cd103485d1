#pragma once

#include <cstdint>
#include <vector>

#include "core/room/space/space_grid.h"

namespace swingroom {

/// Which free nodes hang together along the lattice's edges.
class SpaceRegions {
 public:
  static constexpr std::uint32_t kBlocked = 0;

  /// After a cancel what is there means nothing.
  SpaceRegions(const SpaceValues& values, const WorkMonitor& monitor);

  /// Of a node: 1 to `count()`, or kBlocked.
  std::uint32_t at(std::uint32_t node) const { return names_[regions_[node]]; }
  std::uint32_t count() const { return static_cast<std::uint32_t>(names_.size()) - 1; }
  /// A node of the region.
  std::uint32_t nodeOf(std::uint32_t region) const { return seeds_[region]; }
  std::size_t nodesOf(std::uint32_t region) const { return sizes_[region]; }
  void block(std::uint32_t region) { names_[region] = kBlocked; }

 private:
  std::vector<std::uint32_t> regions_;
  std::vector<std::uint32_t> names_{kBlocked};  ///< What each region counts as.
  std::vector<std::uint32_t> seeds_{0};
  std::vector<std::size_t> sizes_{0};
};

/// Regions in which a target's solid stands at some instant: no surface of it ever passes through a region, so
/// one look at each end of each path is enough. They are blocked.
/// @param solids  By target; null: it has no inside.
void blockSolid(SpaceRegions& regions, const SpaceGrid& grid, const std::vector<SweptTarget>& targets,
                const std::vector<const Solid*>& solids);

/// Calls `visit(node)` for the 14 neighbours of a node in the lattice.
template <typename Visit>
void forNeighbours(const SpaceGrid& grid, std::uint32_t node, const Visit& visit) {
  const std::uint32_t cube = grid.cubeOf(node);
  const bool middle = grid.isMiddle(node);
  const auto place = grid.placeOf(cube);
  const auto go = [&](int di, int dj, int dk, bool toMiddle) {
    const std::array<int, 3> off{di, dj, dk};
    std::array<std::uint32_t, 3> to;
    for (std::size_t d = 0; d < 3; ++d) {
      const std::int64_t at = std::int64_t{place[d]} + off[d];
      if (at < 0 || at >= grid.cubes()[d]) return;
      to[d] = static_cast<std::uint32_t>(at);
    }
    const std::uint32_t next = grid.cubeAt(to[0], to[1], to[2]);
    visit(toMiddle ? grid.middleOf(next) : next);
  };
  for (const int step : {-1, 1}) {
    go(step, 0, 0, middle);
    go(0, step, 0, middle);
    go(0, 0, step, middle);
  }
  const int to = middle ? 1 : -1;
  for (int corner = 0; corner < 8; ++corner) {
    go((corner & 1) ? to : 0, (corner & 2) ? to : 0, (corner & 4) ? to : 0, !middle);
  }
}

}  // namespace swingroom
