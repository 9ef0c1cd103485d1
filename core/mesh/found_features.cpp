#include "core/mesh/found_features.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "core/mesh/weld.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kShortestFeatureMm = 0.2;
constexpr std::size_t kFewestFacets = 3;
constexpr double kRadPerDeg = std::numbers::pi / 180;

/// Corners exactly on what was meshed but for the rounding of a file; roughly on it; and by noise
/// or an uneven mesh. The looser, the more of a turn is asked for: any surface is round within
/// enough.
std::vector<FitLevel> levelsFor(const TriangleMesh& mesh) {
  const double size = mesh.vertices.empty() ? 0 : boundsOf(mesh).diagonal().norm();
  const double rounding = 1e-6 * size;
  const double little = std::cos(30 * kRadPerDeg), most = std::cos(50 * kRadPerDeg);
  const std::vector<FitLevel::Seed> wide{{24, most}, {160, most}, {600, most}};
  return {{3e-4 + rounding,
           0.1,
           0.8,
           40 * kRadPerDeg,
           0.03,
           {{6, little}, {24, little}, {6, most}},
           2,
           0.1},
          {0.02 + rounding, 0.5, 0.6, 120 * kRadPerDeg, 0.08, wide, 20, 0.35},
          {0.08 + rounding, 0.6, 0.5, 150 * kRadPerDeg, 0.15, wide, 20, 0.35}};
}

struct SpanAlong {
  double from = 0, to = 0;
};

SpanAlong spanOf(const TriangleMesh& mesh, const CylinderRegion& region) {
  SpanAlong span{1e300, -1e300};
  for (const std::uint32_t t : region.triangles) {
    for (int i = 0; i < 3; ++i) {
      const double at = (mesh.corner(t, i) - region.fit.through).dot(region.fit.along);
      span = {std::min(span.from, at), std::max(span.to, at)};
    }
  }
  return span;
}

/// How many facets of different directions, up to a few: triangles of one flat count once.
std::size_t facetsOf(const SurfaceTopology& topology, const CylinderRegion& region) {
  const double cosSame = std::cos(0.5 * kRadPerDeg);
  std::vector<Vector3d> normals;
  for (const std::uint32_t t : region.triangles) {
    const Vector3d& normal = topology.normals[t];
    const bool known = std::any_of(normals.begin(), normals.end(),
                                   [&](const Vector3d& n) { return n.dot(normal) > cosSame; });
    if (!known) normals.push_back(normal);
    if (normals.size() >= kFewestFacets) break;
  }
  return normals.size();
}

double areaOf(const SurfaceTopology& topology, const std::vector<std::uint32_t>& triangles) {
  double area = 0;
  for (const std::uint32_t t : triangles) area += topology.areas[t];
  return area;
}

double shareOf(const SurfaceTopology& topology, const BallRegion& region) {
  return areaOf(topology, region.triangles) /
         (4 * std::numbers::pi * region.fit.radiusMm * region.fit.radiusMm);
}

/// The axis that points along the first of the coordinate directions in which it is longest.
Vector3d pointedAlike(const Vector3d& along) {
  Eigen::Index largest = 0;
  along.cwiseAbs().maxCoeff(&largest);
  return along(largest) < 0 ? Vector3d(-along) : along;
}

CylinderFeature featureOf(const TriangleMesh& mesh, CylinderRegion region) {
  region.fit.along = pointedAlike(region.fit.along);
  const SpanAlong span = spanOf(mesh, region);
  CylinderFeature feature;
  const double middle = (span.from + span.to) / 2;
  feature.through = region.fit.through + middle * region.fit.along;
  feature.along = region.fit.along;
  feature.radiusMm = region.fit.radiusMm;
  feature.fromMm = span.from - middle;
  feature.toMm = span.to - middle;
  feature.coverageRad = coverageOf(mesh, region);
  feature.outward = region.outward;
  feature.residualMm = region.fit.residualMm;
  return feature;
}

BallFeature featureOf(const SurfaceTopology& topology, const BallRegion& region) {
  return {region.fit.centre, region.fit.radiusMm, std::min(1.0, shareOf(topology, region)),
          region.outward, region.fit.residualMm};
}

}  // namespace

FeatureFinder::Found::Found(const TriangleMesh& given)
    : mesh(welded(given)),
      topology(mesh),
      levels(levelsFor(mesh)),
      taken(mesh.triangles.size(), false) {
  RegionGrowth growth(mesh, topology);
  for (const FitLevel& level : levels) findAt(level, growth);
  joinPieces();
  nameRegions();
}

void FeatureFinder::Found::take(const std::vector<std::uint32_t>& triangles) {
  for (const std::uint32_t t : triangles) taken[t] = true;
}

/// What ends where noise passes the tolerance is a patch of something wider.
template <typename Region, typename Accept>
void FeatureFinder::Found::widen(Region& region, const FitLevel& level, RegionGrowth& growth,
                                 Accept accept) {
  constexpr double kMuchWider = 1.2;
  for (const FitLevel& looser : levels) {
    if (looser.toleranceMm <= level.toleranceMm) continue;
    auto wider = growth.loosened(region, looser, taken);
    if (!wider || static_cast<double>(wider->triangles.size()) <
                      kMuchWider * static_cast<double>(region.triangles.size())) {
      continue;
    }
    if (accept(*wider, looser)) region = std::move(*wider);
  }
}

bool FeatureFinder::Found::takeBall(std::uint32_t seed, const FitLevel& level, RegionGrowth& growth,
                                    TriedSeeds& tried) {
  if (tried.asBall[seed]) return false;
  auto region = growth.ballFrom(seed, level, taken);
  if (!region || !isBall(*region, level)) {
    TriedSeeds::mark(tried.asBall, growth.lastGrown());
    return false;
  }
  widen(*region, level, growth,
        [this](const BallRegion& wider, const FitLevel& looser) { return isBall(wider, looser); });
  take(region->triangles);
  balls.push_back(std::move(*region));
  return true;
}

bool FeatureFinder::Found::isCylinder(const CylinderRegion& region, const FitLevel& level) const {
  const SpanAlong span = spanOf(mesh, region);
  return span.to - span.from >= kShortestFeatureMm &&
         coverageOf(mesh, region) >= level.leastCoverageRad &&
         facetsOf(topology, region) >= kFewestFacets &&
         !isPieceOfBend(mesh, topology, region, level) &&
         !isPatchOfOther(mesh, topology, region, level);
}

bool FeatureFinder::Found::isBall(const BallRegion& region, const FitLevel& level) const {
  return shareOf(topology, region) >= level.leastShare &&
         !isPatchOfOther(mesh, topology, region, level);
}

bool FeatureFinder::Found::takeCylinder(std::uint32_t seed, const FitLevel& level,
                                        RegionGrowth& growth, TriedSeeds& tried) {
  if (tried.asCylinder[seed]) return false;
  auto region = growth.cylinderFrom(seed, level, taken);
  if (!region || !isCylinder(*region, level)) {
    TriedSeeds::mark(tried.asCylinder, growth.lastGrown());
    return false;
  }
  widen(*region, level, growth, [this](const CylinderRegion& wider, const FitLevel& looser) {
    return isCylinder(wider, looser);
  });
  take(region->triangles);
  cylinders.push_back(std::move(*region));
  return true;
}

void FeatureFinder::Found::findAt(const FitLevel& level, RegionGrowth& growth) {
  const bool strictest = &level == &levels.front();
  TriedSeeds tried(mesh.triangles.size());
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    if (taken[t] || growth.isFlatAround(t)) continue;
    if (takeBall(t, level, growth, tried) || takeCylinder(t, level, growth, tried)) continue;
    // Where many triangles are needed for a fit, those about this one would hardly do better.
    if (strictest) continue;
    const std::vector<std::uint32_t>& near =
        growth.around(t, {100, level.seeds[0].cosMostBend}, taken);
    TriedSeeds::mark(tried.asBall, near);
    TriedSeeds::mark(tried.asCylinder, near);
  }
}

bool FeatureFinder::Found::isPieceOfOne(const CylinderRegion& a, const CylinderRegion& b) const {
  const double tolerance = 2 * levels[0].toleranceMm + a.fit.residualMm + b.fit.residualMm;
  if (a.outward != b.outward || std::abs(a.fit.radiusMm - b.fit.radiusMm) > tolerance) return false;
  const SpanAlong ofA = spanOf(mesh, a);
  SpanAlong ofB{1e300, -1e300};
  for (const std::uint32_t t : b.triangles) {
    for (int i = 0; i < 3; ++i) {
      const double at = (mesh.corner(t, i) - a.fit.through).dot(a.fit.along);
      ofB = {std::min(ofB.from, at), std::max(ofB.to, at)};
      if (std::abs(a.fit.outTo(mesh.corner(t, i)).norm() - a.fit.radiusMm) > tolerance)
        return false;
    }
  }
  return std::max(ofA.from, ofB.from) <= std::min(ofA.to, ofB.to) + 0.01;
}

/// A hole with a slot, a pin with a flat: pieces of one.
void FeatureFinder::Found::joinPieces() {
  RegionGrowth growth(mesh, topology);
  for (std::size_t i = 0; i < cylinders.size(); ++i) {
    for (std::size_t k = i + 1; k < cylinders.size();) {
      if (!isPieceOfOne(cylinders[i], cylinders[k])) {
        ++k;
        continue;
      }
      std::vector<std::uint32_t> both = cylinders[i].triangles;
      both.insert(both.end(), cylinders[k].triangles.begin(), cylinders[k].triangles.end());
      std::sort(both.begin(), both.end());
      const auto fit = cylinderThrough(growth.cornersOf(both), cylinders[i].fit.along);
      if (!fit) {
        ++k;
        continue;
      }
      cylinders[i] = {*fit, cylinders[i].outward, std::move(both)};
      cylinders.erase(cylinders.begin() + static_cast<std::ptrdiff_t>(k));
      k = i + 1;  // What did not fit the piece may fit the whole.
    }
  }
}

void FeatureFinder::Found::nameRegions() {
  const auto byFirst = [](const auto& a, const auto& b) {
    return a.triangles.front() < b.triangles.front();
  };
  std::sort(cylinders.begin(), cylinders.end(), byFirst);
  std::sort(balls.begin(), balls.end(), byFirst);
  cylinderOf.assign(mesh.triangles.size(), kNoRegion);
  ballOf.assign(mesh.triangles.size(), kNoRegion);
  for (std::size_t i = 0; i < cylinders.size(); ++i) {
    features.cylinders.push_back(featureOf(mesh, cylinders[i]));
    for (const std::uint32_t t : cylinders[i].triangles) {
      cylinderOf[t] = static_cast<std::uint32_t>(i);
    }
  }
  for (std::size_t i = 0; i < balls.size(); ++i) {
    features.balls.push_back(featureOf(topology, balls[i]));
    for (const std::uint32_t t : balls[i].triangles) ballOf[t] = static_cast<std::uint32_t>(i);
  }
}

/// Made when first asked for.
const BodyEdges& FeatureFinder::Found::edges() const {
  std::call_once(edgesMade_, [this] {
    edges_.emplace(mesh, topology, [this](std::uint32_t a, std::uint32_t b) {
      const auto sameRound = [&](const std::vector<std::uint32_t>& regions) {
        return regions[a] != kNoRegion && regions[a] == regions[b];
      };
      return !sameRound(cylinderOf) && !sameRound(ballOf);
    });
  });
  return *edges_;
}

/// What is pointed at may be small: a fillet's strip, a shallow groove. Exact ones only.
std::optional<CylinderFeature> FeatureFinder::Found::smallCylinderAt(std::uint32_t seed) const {
  if (ballOf[seed] != kNoRegion) return std::nullopt;
  RegionGrowth growth(mesh, topology);
  if (growth.isFlatAround(seed)) return std::nullopt;
  FitLevel level = levels.front();
  level.leastCoverageRad = 15 * kRadPerDeg;
  const auto region = growth.cylinderFrom(seed, level, taken);
  const bool isOne = region && coverageOf(mesh, *region) >= level.leastCoverageRad &&
                     facetsOf(topology, *region) >= kFewestFacets &&
                     !isPieceOfBend(mesh, topology, *region, level) &&
                     !isPatchOfOther(mesh, topology, *region, level);
  if (!isOne) return std::nullopt;
  return featureOf(mesh, *region);
}

void FeatureFinder::Found::checkIndex(std::size_t triangle) const {
  if (triangle >= mesh.triangles.size()) {
    throw std::out_of_range("FeatureFinder: no triangle " + std::to_string(triangle));
  }
}

}  // namespace swingroom
