#include "core/room/space/space_regions.h"

#include <limits>

namespace swingroom {

SpaceRegions::SpaceRegions(const SpaceValues& values, const WorkMonitor& monitor) {
  std::size_t looks = 0;
  const auto isStopped = [&] { return (++looks & 0x3fff) == 0 && monitor.cancelled(); };
  constexpr std::uint32_t kUnseen = std::numeric_limits<std::uint32_t>::max();
  const SpaceGrid& grid = values.grid();
  regions_.resize(grid.nodeCount());
  for (std::uint32_t node = 0; node < regions_.size(); ++node) regions_[node] = values.isFree(node) ? kUnseen : kBlocked;
  std::vector<std::uint32_t> waiting;
  for (std::uint32_t seed = 0; seed < regions_.size(); ++seed) {
    if (isStopped()) return;
    if (regions_[seed] != kUnseen) continue;
    const auto region = static_cast<std::uint32_t>(names_.size());
    names_.push_back(region);
    seeds_.push_back(seed);
    sizes_.push_back(0);
    regions_[seed] = region;
    waiting.push_back(seed);
    while (!waiting.empty()) {
      if (isStopped()) return;
      const std::uint32_t node = waiting.back();
      waiting.pop_back();
      ++sizes_[region];
      forNeighbours(grid, node, [&](std::uint32_t next) {
        if (regions_[next] != kUnseen) return;
        regions_[next] = region;
        waiting.push_back(next);
      });
    }
  }
}

void blockSolid(SpaceRegions& regions, const SpaceGrid& grid, const std::vector<SweptTarget>& targets,
                const std::vector<const Solid*>& solids) {
  for (std::uint32_t region = 1; region <= regions.count(); ++region) {
    const Vector3d p = grid.positionOf(regions.nodeOf(region));
    const auto isInside = [&](const Solid& solid, const RegionPath& path) {
      if (solid.contains(path.X_SR(path.levels(), 0) * p)) return true;
      return !path.isConstant() && solid.contains(path.X_SR(0, 1) * p);
    };
    for (std::size_t t = 0; t < targets.size() && regions.at(regions.nodeOf(region)) != SpaceRegions::kBlocked; ++t) {
      if (!solids[t]) continue;
      for (const RegionPath& path : targets[t].paths) {
        if (!isInside(*solids[t], path)) continue;
        regions.block(region);
        break;
      }
    }
  }
}

}  // namespace swingroom
