#include <Eigen/Geometry>
#include <algorithm>
#include <numbers>
#include <numeric>

#include "core/print/walls/wall_spots.h"

namespace swingroom {
namespace {

constexpr double kWallLeastBladeMm = 2;
constexpr double kWallBladeRad = 60 * std::numbers::pi / 180;

std::uint32_t rootOf(std::vector<std::uint32_t>& parent, std::uint32_t i) {
  while (parent[i] != i) i = parent[i] = parent[parent[i]];
  return i;
}

}  // namespace

std::vector<BladeEdge> bladeEdges(const WallSurface& surface) {
  const auto& blades = surface.blades();
  std::vector<std::uint32_t> parent(surface.mesh().vertices.size());
  std::iota(parent.begin(), parent.end(), 0u);
  const auto isSharp = [](const WallSurface::Blade& blade) {
    return blade.from != blade.to && blade.openingRad < kWallBladeRad;
  };
  for (const auto& blade : blades)
    if (isSharp(blade)) parent[rootOf(parent, blade.from)] = rootOf(parent, blade.to);
  std::vector<std::uint32_t> runOf(parent.size(), SurfaceTopology::kNone);
  std::vector<BladeEdge> runs;
  const auto& vertices = surface.mesh().vertices;
  for (const auto& blade : blades) {
    if (!isSharp(blade)) continue;
    std::uint32_t& run = runOf[rootOf(parent, blade.from)];
    const bool isFirst = run == SurfaceTopology::kNone;
    if (isFirst) {
      run = static_cast<std::uint32_t>(runs.size());
      runs.emplace_back();
    }
    BladeEdge& edge = runs[run];
    edge.lengthMm += (vertices[blade.to] - vertices[blade.from]).norm();
    if (!isFirst && blade.openingRad >= edge.openingRad) continue;
    edge.openingRad = blade.openingRad;
    edge.at_P = (vertices[blade.from] + vertices[blade.to]) / 2;
  }
  std::erase_if(runs, [](const BladeEdge& run) { return run.lengthMm < kWallLeastBladeMm; });
  std::stable_sort(runs.begin(), runs.end(),
                   [](const BladeEdge& a, const BladeEdge& b) { return a.lengthMm > b.lengthMm; });
  return runs;
}

}  // namespace swingroom
