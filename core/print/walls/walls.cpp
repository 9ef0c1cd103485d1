#include "core/print/walls/walls.h"

#include <algorithm>
#include <numbers>

#include "core/mesh/feature_finder.h"
#include "core/mesh/health.h"
#include "core/print/walls/wall_mirror.h"
#include "core/print/walls/wall_spots.h"
#include "core/print/walls/wall_surface.h"
#include "core/print/walls/wall_thickness.h"

namespace swingroom {
namespace {

constexpr double kWallPiecesAcrossPart = 60;
constexpr double kWallLeastPieceMm = 0.5;
constexpr double kWallRoundRad = 300 * std::numbers::pi / 180;
/// A pin is so many times as long as thick; shorter ones are rivets and discs.
constexpr double kWallPinLength = 0.75;

std::string whyNotJudged(const MeshHealth& health) {
  if (health.shells.empty()) return "it has no surface";
  if (!health.closed()) return "its surface is open, so that nothing is inside";
  if (health.insideOutShells > 0) return "its faces look inwards";
  return {};
}

std::vector<PinFigure> pinsOf(const Features& features) {
  std::vector<PinFigure> pins;
  for (const CylinderFeature& cylinder : features.cylinders) {
    if (!cylinder.outward || cylinder.coverageRad < kWallRoundRad) continue;
    const double lengthMm = cylinder.toMm - cylinder.fromMm, diameterMm = 2 * cylinder.radiusMm;
    if (lengthMm < kWallPinLength * diameterMm) continue;
    pins.push_back({diameterMm, lengthMm,
                    cylinder.through + (cylinder.fromMm + cylinder.toMm) / 2 * cylinder.along,
                    cylinder.along, cylinder.residualMm});
  }
  std::stable_sort(pins.begin(), pins.end(), [](const PinFigure& a, const PinFigure& b) {
    return a.diameterMm < b.diameterMm;
  });
  return pins;
}

void setLeast(WallMap& map) {
  for (const WallPlace& place : map.places) {
    if (place.kind != WallKind::wall && place.kind != WallKind::neck) continue;
    if (place.upperMm >= map.mostMm) continue;
    if (place.upperMm <= map.provenMm)
      map.accuracyMm = std::max(map.accuracyMm, place.upperMm - place.lowerMm);
  }
  for (const ThinSpot& spot : map.spots) {
    map.leastLowerMm = std::min(map.leastLowerMm.value_or(spot.lowerMm), spot.lowerMm);
    map.leastUpperMm = std::min(map.leastUpperMm.value_or(spot.upperMm), spot.upperMm);
  }
}

}  // namespace

WallMap wallsOf(const TriangleMesh& mesh, const ThicknessSettings& settings, WorkMonitor& monitor,
                const Features* exact) {
  WallMap map;
  map.mostMm = settings.mostMm;
  map.provenMm = std::min(settings.provenMm, settings.mostMm);
  map.pieceMm =
      settings.pieceMm > 0
          ? settings.pieceMm
          : std::max(boundsOf(mesh).diagonal().norm() / kWallPiecesAcrossPart, kWallLeastPieceMm);
  const MeshHealth health = examine(mesh);
  map.whyNot = whyNotJudged(health);
  if (!map.whyNot.empty()) return map;
  const WallSurface surface(mesh, health, settings.threads);
  map.places =
      thicknessOf(surface, {map.pieceMm, map.mostMm, map.provenMm}, settings.threads, monitor);
  if (monitor.cancelled()) {
    map.places.clear();
    map.whyNot = "it was not waited for";
    return map;
  }
  map.spots = thinSpots(surface, map.mostMm, settings.threads, map.places);
  map.blades = bladeEdges(surface);
  map.pins = pinsOf(exact ? *exact : featuresOf(mesh));
  setLeast(map);
  map.judged = true;
  return map;
}

bool WallsResult::operator==(const WallsResult& other) const {
  const auto same = [](const auto& a, const auto& b) { return a == b || (a && b && *a == *b); };
  return std::equal(maps.begin(), maps.end(), other.maps.begin(), other.maps.end(), same);
}

WallsResult checkWalls(const PrintSubject& subject, WorkMonitor& monitor) {
  WallsResult result;
  const auto& parts = subject.assembly->parts();
  result.maps.resize(parts.size());
  ThicknessSettings settings;
  settings.threads = subject.threads;
  std::vector<std::pair<const TriangleMesh*, std::shared_ptr<const WallMap>>> known;
  const auto knownOf = [&](const TriangleMesh& mesh) -> std::shared_ptr<const WallMap> {
    for (const auto& [other, map] : known)
      if (other == &mesh) return map;
    for (const auto& [other, map] : known) {
      if (const auto X = reflectionBetween(mesh, *other))
        return std::make_shared<const WallMap>(reflected(*map, *X));
    }
    return nullptr;
  };
  monitor.start(parts.size());
  for (std::size_t i = 0; i < parts.size() && !monitor.cancelled(); ++i) {
    const Part& part = parts[i];
    monitor.advance();
    if (!part.mesh || !subject.print(PartId{i}).printed) continue;
    auto map = knownOf(*part.mesh);
    if (!map) {
      map = std::make_shared<const WallMap>(
          wallsOf(*part.mesh, settings, monitor, part.exactFeatures.get()));
      if (monitor.cancelled()) return result;
    }
    known.emplace_back(part.mesh.get(), map);
    result.maps[i] = std::move(map);
  }
  return result;
}

}  // namespace swingroom
