#include "core/mesh/region_growth.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace swingroom {
namespace {

using Eigen::Vector3d;

const double kCosMostBend = std::cos(50 * std::numbers::pi / 180);
const double kCosFlat = std::cos(0.05 * std::numbers::pi / 180);
const double kCosWidest =
    std::cos(51 * std::numbers::pi / 180);  // Of one facet, seen from the axis.
constexpr double kSliverMm = 0.002;
constexpr int kMostGrowRounds = 12;
constexpr double kLeastNormalSpread = 2e-4;
constexpr double kMuchGrown = 1.02;

Vector3d middleOf(const TriangleMesh& mesh, std::uint32_t t) {
  return (mesh.corner(t, 0) + mesh.corner(t, 1) + mesh.corner(t, 2)) / 3;
}

/// The direction across all normals, as well as there is one.
std::optional<Vector3d> commonAcross(const SurfaceTopology& topology,
                                     const std::vector<std::uint32_t>& triangles,
                                     double mostRatio) {
  Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
  double area = 0;
  for (const std::uint32_t t : triangles) {
    sum += topology.areas[t] * topology.normals[t] * topology.normals[t].transpose();
    area += topology.areas[t];
  }
  if (!(area > 0)) return std::nullopt;
  Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver;
  solver.computeDirect(sum / area);              // A first guess: fits make it exact.
  const Vector3d values = solver.eigenvalues();  // Rising.
  if (values(1) < 1e-5 || values(0) > mostRatio * values(1)) return std::nullopt;
  return solver.eigenvectors().col(0);
}

bool facesOutward(const TriangleMesh& mesh, const SurfaceTopology& topology, std::uint32_t t,
                  const CylinderFit& fit) {
  return fit.outTo(middleOf(mesh, t)).dot(topology.normals[t]) > 0;
}

bool facesOutward(const TriangleMesh& mesh, const SurfaceTopology& topology, std::uint32_t t,
                  const BallFit& fit) {
  return (middleOf(mesh, t) - fit.centre).dot(topology.normals[t]) > 0;
}

}  // namespace

RegionGrowth::RegionGrowth(const TriangleMesh& mesh, const SurfaceTopology& topology)
    : mesh_(mesh),
      topology_(topology),
      sliver_(mesh.triangles.size()),
      stamps_(mesh.triangles.size(), 0),
      cornerStamps_(mesh.vertices.size(), 0) {
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    double longest = 0;
    for (int i = 0; i < 3; ++i) {
      longest = std::max(longest, (mesh.corner(t, (i + 1) % 3) - mesh.corner(t, i)).norm());
    }
    sliver_[t] = 2 * topology.areas[t] <= kSliverMm * longest;
  }
}

void RegionGrowth::newStamp() {
  if (++stamp_ != 0) return;
  std::fill(stamps_.begin(), stamps_.end(), 0);
  std::fill(cornerStamps_.begin(), cornerStamps_.end(), 0);
  stamp_ = 1;
}

bool RegionGrowth::bendsOver(std::uint32_t a, std::uint32_t b, double cosMost) const {
  return !isSliver(a) && !isSliver(b) && topology_.cosBend(a, b) < cosMost;
}

const std::vector<std::uint32_t>& RegionGrowth::around(std::uint32_t seed,
                                                       const FitLevel::Seed& wanted,
                                                       const std::vector<bool>& taken) {
  newStamp();
  around_.assign(1, seed);
  stamps_[seed] = stamp_;
  for (std::size_t i = 0; i < around_.size() && around_.size() < wanted.count; ++i) {
    for (const std::uint32_t next : topology_.neighbours[around_[i]]) {
      if (next == SurfaceTopology::kNone || stamps_[next] == stamp_ || taken[next]) continue;
      if (bendsOver(around_[i], next, wanted.cosMostBend)) continue;
      stamps_[next] = stamp_;
      around_.push_back(next);
    }
  }
  return around_;
}

bool RegionGrowth::isFlatAround(std::uint32_t triangle) const {
  for (const std::uint32_t next : topology_.neighbours[triangle]) {
    if (next == SurfaceTopology::kNone) continue;
    const double bend = topology_.cosBend(triangle, next);
    if (bend < kCosFlat && bend >= kCosMostBend) return false;
  }
  return true;
}

std::vector<Vector3d> RegionGrowth::cornersOf(const std::vector<std::uint32_t>& triangles) {
  newStamp();
  std::vector<Vector3d> points;
  points.reserve(triangles.size() + 2);
  for (const std::uint32_t t : triangles) {
    for (const std::uint32_t v : mesh_.triangles[t]) {
      if (cornerStamps_[v] == stamp_) continue;
      cornerStamps_[v] = stamp_;
      points.push_back(mesh_.vertices[v]);
    }
  }
  return points;
}

bool RegionGrowth::isOn(std::uint32_t t, const CylinderFit& fit, bool outward,
                        const FitLevel& level) const {
  Vector3d out[3];
  Vector3d sum = Vector3d::Zero();
  for (int i = 0; i < 3; ++i) {
    out[i] = fit.outTo(mesh_.corner(t, i));
    if (std::abs(out[i].norm() - fit.radiusMm) > level.toleranceFor(fit.radiusMm)) return false;
    sum += out[i];
  }
  for (int i = 0; i < 3; ++i) {
    const Vector3d &a = out[i], &b = out[(i + 1) % 3];
    if (a.dot(b) < kCosWidest * a.norm() * b.norm()) return false;
  }
  if (isSliver(t)) return true;
  const Vector3d& normal = topology_.normals[t];
  if (std::abs(normal.dot(fit.along)) > level.mostTilt) return false;
  const double radial = normal.dot(sum.normalized());
  return (outward ? radial : -radial) >= level.leastRadial;
}

bool RegionGrowth::isOn(std::uint32_t t, const BallFit& fit, bool outward,
                        const FitLevel& level) const {
  Vector3d out[3];
  Vector3d sum = Vector3d::Zero();
  for (int i = 0; i < 3; ++i) {
    out[i] = mesh_.corner(t, i) - fit.centre;
    if (std::abs(out[i].norm() - fit.radiusMm) > level.toleranceFor(fit.radiusMm)) return false;
    sum += out[i];
  }
  for (int i = 0; i < 3; ++i) {
    const Vector3d &a = out[i], &b = out[(i + 1) % 3];
    if (a.dot(b) < kCosWidest * a.norm() * b.norm()) return false;
  }
  if (isSliver(t)) return true;
  const double radial = topology_.normals[t].dot(sum.normalized());
  // Both ways round: a facet is half as wide, and end faces of pins are none.
  return (outward ? radial : -radial) >= 1 - (1 - level.leastRadial) / 4;
}

template <typename Fit>
std::vector<std::uint32_t> RegionGrowth::grown(std::uint32_t seed, const Fit& fit, bool outward,
                                               const FitLevel& level,
                                               const std::vector<bool>& taken) {
  newStamp();
  if (!isOn(seed, fit, outward, level)) return {};
  std::vector<std::uint32_t> region{seed};
  stamps_[seed] = stamp_;
  for (std::size_t i = 0; i < region.size(); ++i) {
    for (const std::uint32_t next : topology_.neighbours[region[i]]) {
      if (next == SurfaceTopology::kNone || stamps_[next] == stamp_ || taken[next]) continue;
      stamps_[next] = stamp_;
      if (!bendsOver(region[i], next, kCosMostBend) && isOn(next, fit, outward, level))
        region.push_back(next);
      else
        stamps_[next] = 0;  // Another neighbour may still reach it.
    }
  }
  std::sort(region.begin(), region.end());
  return region;
}

/// What a first guess reaches must be some of what is asked for.
bool RegionGrowth::mayBecome(const CylinderRegion& region, const FitLevel& level) const {
  return coverageOf(mesh_, region) > level.leastCoverageRad / 4;
}

bool RegionGrowth::mayBecome(const BallRegion& region, const FitLevel& level) const {
  double area = 0;
  for (const std::uint32_t t : region.triangles) area += topology_.areas[t];
  return area >
         level.leastShare / 6 * 4 * std::numbers::pi * region.fit.radiusMm * region.fit.radiusMm;
}

template <typename Fit, typename Refit>
std::optional<Region<Fit>> RegionGrowth::settled(std::uint32_t seed, Fit fit, const FitLevel& level,
                                                 const std::vector<bool>& taken, Refit refit) {
  Region<Fit> region;
  for (int round = 0; round < kMostGrowRounds; ++round) {
    const bool outward = facesOutward(mesh_, topology_, seed, fit);
    std::vector<std::uint32_t> triangles = grown(seed, fit, outward, level, taken);
    if (triangles.size() < 3) return std::nullopt;
    if (triangles.size() > lastGrown_.size()) lastGrown_ = triangles;
    const bool same = triangles == region.triangles;
    const bool settles = round > 3 && static_cast<double>(triangles.size()) <
                                          kMuchGrown * static_cast<double>(region.triangles.size());
    region = {fit, outward, std::move(triangles)};
    if (same) break;
    if (round == 0 && !mayBecome(region, level)) return std::nullopt;
    const auto better = refit(cornersOf(region.triangles), fit);
    if (!better) return std::nullopt;
    region.fit = fit = *better;
    if (settles) break;
  }
  // A last corner may have left the tolerance when the others moved the fit.
  if (region.fit.residualMm > 1.5 * level.toleranceFor(region.fit.radiusMm)) return std::nullopt;
  return region;
}

std::optional<CylinderRegion> RegionGrowth::cylinderFrom(std::uint32_t seed, const FitLevel& level,
                                                         const std::vector<bool>& taken) {
  std::optional<CylinderRegion> best;
  lastGrown_.clear();
  for (const FitLevel::Seed& wanted : level.seeds) {
    const std::vector<std::uint32_t>& triangles = around(seed, wanted, taken);
    const auto along = commonAcross(topology_, triangles, level.mostRatio);
    if (!along) continue;
    const auto fit = cylinderThrough(cornersOf(triangles), *along);
    if (!fit || fit->residualMm > level.roughly * level.toleranceMm) continue;
    auto region = settled(seed, *fit, level, taken, [](const auto& points, const CylinderFit& f) {
      return cylinderThrough(points, f.along);
    });
    const bool larger = region && (!best || region->triangles.size() > best->triangles.size());
    if (larger) best = std::move(region);
  }
  return best;
}

std::optional<BallRegion> RegionGrowth::ballFrom(std::uint32_t seed, const FitLevel& level,
                                                 const std::vector<bool>& taken) {
  std::optional<BallRegion> best;
  lastGrown_.clear();
  for (const FitLevel::Seed& wanted : level.seeds) {
    const std::vector<std::uint32_t>& triangles = around(seed, wanted, taken);
    const Vector3d spread = normalSpread(topology_, triangles);
    if (spread(1) < 0.25 * spread(2)) continue;  // It bends one way only.
    const auto fit = ballThrough(cornersOf(triangles));
    if (!fit || fit->residualMm > level.roughly * level.toleranceMm) continue;
    auto region = settled(seed, *fit, level, taken,
                          [](const auto& points, const BallFit&) { return ballThrough(points); });
    if (!region || normalSpread(topology_, region->triangles)(0) < kLeastNormalSpread) continue;
    if (!best || region->triangles.size() > best->triangles.size()) best = std::move(region);
  }
  return best;
}

std::optional<CylinderRegion> RegionGrowth::loosened(const CylinderRegion& region,
                                                     const FitLevel& level,
                                                     const std::vector<bool>& taken) {
  return settled(
      region.triangles.front(), region.fit, level, taken,
      [](const auto& points, const CylinderFit& f) { return cylinderThrough(points, f.along); });
}

std::optional<BallRegion> RegionGrowth::loosened(const BallRegion& region, const FitLevel& level,
                                                 const std::vector<bool>& taken) {
  return settled(region.triangles.front(), region.fit, level, taken,
                 [](const auto& points, const BallFit&) { return ballThrough(points); });
}

}  // namespace swingroom
