#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "core/mesh/region_growth.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

const double kCosSmooth = std::cos(35 * std::numbers::pi / 180);

/// Both ends of a region along its axis: what the surface does beyond them.
struct Ends {
  RegionEnd low, high;
  double fromMm = 0, toMm = 0;
};

void addEdge(RegionEnd& end, double length, bool smooth, double tilt) {
  end.lengthMm += length;
  if (!smooth) return;
  end.smoothMm += length;
  end.tilt += length * tilt;
  end.bend += length * std::abs(tilt);
}

Ends endsOf(const TriangleMesh& mesh, const SurfaceTopology& topology,
            const CylinderRegion& region) {
  Ends ends;
  const CylinderFit& fit = region.fit;
  const auto heightOf = [&](const Vector3d& p) { return (p - fit.through).dot(fit.along); };
  ends.fromMm = ends.toMm = heightOf(mesh.corner(region.triangles.front(), 0));
  for (const std::uint32_t t : region.triangles) {
    for (int i = 0; i < 3; ++i) {
      ends.fromMm = std::min(ends.fromMm, heightOf(mesh.corner(t, i)));
      ends.toMm = std::max(ends.toMm, heightOf(mesh.corner(t, i)));
    }
  }
  const double middle = (ends.fromMm + ends.toMm) / 2;
  for (const std::uint32_t t : region.triangles) {
    for (int i = 0; i < 3; ++i) {
      const std::uint32_t next = topology.neighbours[t][static_cast<std::size_t>(i)];
      const bool inside =
          next != SurfaceTopology::kNone &&
          std::binary_search(region.triangles.begin(), region.triangles.end(), next);
      const Vector3d edge = mesh.corner(t, (i + 1) % 3) - mesh.corner(t, i);
      if (inside || std::abs(edge.dot(fit.along)) > 0.5 * edge.norm()) continue;
      const double tilt =
          next == SurfaceTopology::kNone ? 0 : topology.normals[next].dot(fit.along);
      const bool smooth = next != SurfaceTopology::kNone && topology.cosBend(t, next) > kCosSmooth;
      const double at = heightOf((mesh.corner(t, (i + 1) % 3) + mesh.corner(t, i)) / 2);
      addEdge(at < middle ? ends.low : ends.high, edge.norm(), smooth, tilt);
    }
  }
  return ends;
}

/// How far the widest facet stands in from the corners' circle.
double sagittaOf(const TriangleMesh& mesh, const CylinderRegion& region) {
  double least = region.fit.radiusMm;
  for (const std::uint32_t t : region.triangles) {
    for (int i = 0; i < 3; ++i) {
      const Vector3d half = (mesh.corner(t, i) + mesh.corner(t, (i + 1) % 3)) / 2;
      least = std::min(least, region.fit.outTo(half).norm());
    }
  }
  return region.fit.radiusMm - least;
}

}  // namespace

double coverageOf(const TriangleMesh& mesh, const CylinderRegion& region) {
  constexpr double kTurn = 2 * std::numbers::pi;
  const CylinderFit& fit = region.fit;
  const Vector3d x = fit.along.unitOrthogonal(), y = fit.along.cross(x);
  std::vector<std::pair<double, double>> spans;
  for (const std::uint32_t t : region.triangles) {
    const Vector3d middle =
        fit.outTo((mesh.corner(t, 0) + mesh.corner(t, 1) + mesh.corner(t, 2)) / 3);
    const double at = std::atan2(middle.dot(y), middle.dot(x));
    double low = 0, high = 0;
    for (int i = 0; i < 3; ++i) {
      const Vector3d out = fit.outTo(mesh.corner(t, i));
      const double turned = std::atan2(middle.cross(out).dot(fit.along), middle.dot(out));
      low = std::min(low, turned);
      high = std::max(high, turned);
    }
    double from = at + low;
    const double to = at + high;
    if (from < -std::numbers::pi) {
      spans.emplace_back(from + kTurn, std::numbers::pi);
      from = -std::numbers::pi;
    }
    if (to > std::numbers::pi) spans.emplace_back(-std::numbers::pi, to - kTurn);
    spans.emplace_back(from, std::min(to, std::numbers::pi));
  }
  std::sort(spans.begin(), spans.end());
  constexpr double kSameRad = 1e-4;  // Corners' rounding, seen from the axis.
  double covered = 0, reached = -std::numbers::pi;
  for (const auto& [from, to] : spans) {
    if (to <= reached) continue;
    covered += to - (from <= reached + kSameRad ? reached : from);
    reached = to;
  }
  return std::numbers::pi - reached < kSameRad && covered > kTurn - 2 * kSameRad ? kTurn : covered;
}

Vector3d normalSpread(const SurfaceTopology& topology,
                      const std::vector<std::uint32_t>& triangles) {
  Vector3d mean = Vector3d::Zero();
  double area = 0;
  for (const std::uint32_t t : triangles) {
    mean += topology.areas[t] * topology.normals[t];
    area += topology.areas[t];
  }
  if (!(area > 0)) return Vector3d::Zero();
  mean /= area;
  Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
  for (const std::uint32_t t : triangles) {
    const Vector3d off = topology.normals[t] - mean;
    sum += topology.areas[t] * off * off.transpose();
  }
  Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver;
  solver.computeDirect(sum / area, Eigen::EigenvaluesOnly);
  return solver.eigenvalues();
}

template <typename Fit>
bool isPatchOfOther(const TriangleMesh& mesh, const SurfaceTopology& topology,
                    const Region<Fit>& region, const FitLevel& level) {
  constexpr double kUsedUp = 0.3;
  if (region.fit.residualMm < kUsedUp * level.toleranceFor(region.fit.radiusMm)) return false;
  double rim = 0, smooth = 0;
  for (const std::uint32_t t : region.triangles) {
    for (int i = 0; i < 3; ++i) {
      const std::uint32_t next = topology.neighbours[t][static_cast<std::size_t>(i)];
      const bool isRim =
          next == SurfaceTopology::kNone ||
          !std::binary_search(region.triangles.begin(), region.triangles.end(), next);
      if (!isRim) continue;
      const double length = (mesh.corner(t, (i + 1) % 3) - mesh.corner(t, i)).norm();
      rim += length;
      if (next != SurfaceTopology::kNone && topology.cosBend(t, next) > kCosSmooth) {
        smooth += length;
      }
    }
  }
  return smooth > 0.5 * rim;
}

template bool isPatchOfOther(const TriangleMesh&, const SurfaceTopology&, const CylinderRegion&,
                             const FitLevel&);
template bool isPatchOfOther(const TriangleMesh&, const SurfaceTopology&, const BallRegion&,
                             const FitLevel&);

bool isPieceOfBend(const TriangleMesh& mesh, const SurfaceTopology& topology,
                   const CylinderRegion& region, const FitLevel& level) {
  const Ends ends = endsOf(mesh, topology, region);
  if (!ends.low.isSmooth() || !ends.high.isSmooth()) return false;
  const double smooth = ends.low.smoothMm + ends.high.smoothMm;
  const double kink = (ends.low.bend + ends.high.bend) / smooth;
  const double sag = (ends.toMm - ends.fromMm) * kink / 8;
  // No more than a coarse mesh strays from what it stands for: the next row goes on with it.
  if (sag < 4 * std::max(level.toleranceMm, sagittaOf(mesh, region))) return true;
  const double tilts = std::abs(ends.low.tilt) + std::abs(ends.high.tilt);
  const bool turnsAside = tilts < 0.5 * (ends.low.bend + ends.high.bend);
  return turnsAside && level.mostTilt > 0.15;  // Not at the strictest level: a straight pipe's end.
}

}  // namespace swingroom
