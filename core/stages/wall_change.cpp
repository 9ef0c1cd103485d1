#include "core/stages/wall_change.h"

#include <algorithm>
#include <vector>

#include "core/base/parallel.h"
#include "core/motion/surface_samples.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kStartMm = 1e-4;
constexpr double kAwayCos = -0.82;  ///< The two sides of a wall.

/// Thickness from a place of the surface straight into the material; none: no wall.
std::optional<double> wallBehind(const StageSurface& surface, const Vector3d& p, const Vector3d& n,
                                 double thickestMm) {
  const auto hit = firstHit(surface.tree(), p - kStartMm * n, -n, thickestMm);
  if (!hit || !(surface.normal(hit->triangle).dot(n) < kAwayCos)) return std::nullopt;
  return hit->distanceMm + kStartMm;
}

/// The wall of the detail at a place that was in the middle of the block's.
std::optional<double> wallThere(const StageSurface& detail, const Vector3d& middle,
                                const Vector3d& n, double beforeMm) {
  const double reachMm = 1.5 * beforeMm + 0.5;
  Vector3d inside = middle;
  if (!detail.contains(middle)) {
    // It moved: its nearer side, and a little beyond it.
    const auto up = firstHit(detail.tree(), middle, n, beforeMm);
    const auto down = firstHit(detail.tree(), middle, -n, beforeMm);
    if (!up && !down) return std::nullopt;
    const bool goesUp = up && (!down || up->distanceMm < down->distanceMm);
    const Vector3d way = goesUp ? n : Vector3d(-n);
    const auto& hit = goesUp ? *up : *down;
    if (!(detail.normal(hit.triangle).dot(way) < kAwayCos)) return std::nullopt;
    inside = middle + (hit.distanceMm + kStartMm) * way;
  }
  const auto up = firstHit(detail.tree(), inside, n, reachMm);
  const auto down = firstHit(detail.tree(), inside, -n, reachMm);
  if (!up || !down) return std::nullopt;  // Thicker than anything that could be told.
  if (!(detail.normal(up->triangle).dot(n) > -kAwayCos)) return std::nullopt;
  if (!(detail.normal(down->triangle).dot(n) < kAwayCos)) return std::nullopt;
  return up->distanceMm + down->distanceMm;
}

}  // namespace

std::optional<WallChange> thinnedWall(const StageSurface& block, const StageSurface& detail,
                                      const WallSettings& settings) {
  if (!block.isPlain() || !detail.isPlain()) return std::nullopt;
  TriangleMesh seen;
  seen.vertices = block.mesh().vertices;
  for (const std::uint32_t t : block.shown()) seen.triangles.push_back(block.mesh().triangles[t]);
  const std::vector<SurfaceSample> places = sampledByArea(seen, settings.places);
  constexpr std::size_t kChunk = 200;
  std::vector<std::optional<WallChange>> found((places.size() + kChunk - 1) / kChunk);
  parallelFor(found.size(), settings.threads, [&](std::size_t c) {
    for (std::size_t i = c * kChunk; i < std::min(places.size(), (c + 1) * kChunk); ++i) {
      const auto& [p, n, area] = places[i];
      const auto beforeMm = wallBehind(block, p, n, settings.thickestMm);
      if (!beforeMm) continue;
      const Vector3d middle = p - *beforeMm / 2 * n;
      const auto afterMm = wallThere(detail, middle, n, *beforeMm);
      if (!afterMm || *afterMm >= settings.enoughMm) continue;
      const double lost = *beforeMm - *afterMm;
      if (lost < settings.leastMm || lost < settings.leastShare * *beforeMm) continue;
      if (!found[c] || *afterMm < found[c]->afterMm) found[c] = WallChange{middle, *beforeMm, *afterMm};
    }
  });
  std::optional<WallChange> thinnest;
  for (const auto& wall : found) {
    if (wall && (!thinnest || wall->afterMm < thinnest->afterMm)) thinnest = wall;
  }
  return thinnest;
}

}  // namespace swingroom
