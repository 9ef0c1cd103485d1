#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/mesh/round_fit.h"
#include "core/mesh/surface_topology.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// How near corners must be to a fitted surface, and how straight its facets must face.
struct FitLevel {
  double toleranceMm = 0;
  double mostTilt = 0;          ///< Of a facet's normal along a cylinder's axis.
  double leastRadial = 0;       ///< Of a facet's normal along its own radius.
  double leastCoverageRad = 0;  ///< Of a cylinder.
  double leastShare = 0;        ///< Of a ball.
  /// What round a seed is fitted first: so many triangles, over edges that bend by no more.
  struct Seed {
    std::size_t count = 0;
    double cosMostBend = 0;
  };
  std::vector<Seed> seeds;
  double roughly = 1;    ///< Times the tolerance that a seed's own fit may be off.
  double mostRatio = 0;  ///< Of the normals' spread along a cylinder's axis and across it.

  /// Small things are not round by being roughly so.
  double toleranceFor(double radiusMm) const { return std::min(toleranceMm, 0.015 * radiusMm); }
};

/// Triangles that lie on one cylinder or one ball, and it.
template <typename Fit>
struct Region {
  Fit fit;
  bool outward = false;
  std::vector<std::uint32_t> triangles;  ///< Rising.
};
using CylinderRegion = Region<CylinderFit>;
using BallRegion = Region<BallFit>;

/// How a region of a cylinder goes on at one end along the axis.
struct RegionEnd {
  double lengthMm = 0;  ///< Of its rim.
  double smoothMm = 0;  ///< Of the rim beyond which the surface bends away by less than 35 degrees.
  double tilt = 0;      ///< Over the smooth rim: mean of the next normals along the axis,
  double bend = 0;      ///< and of their sizes; a pipe's bend has tilts that cancel.

  bool isSmooth() const { return smoothMm > 0.5 * lengthMm; }
};

/// Grows regions of a welded mesh from seeds. Keeps notes of its own: not for two threads at once.
class RegionGrowth {
 public:
  RegionGrowth(const TriangleMesh& mesh, const SurfaceTopology& topology);

  /// What the surface round `seed` lies on; regions take no triangles that are `taken`.
  std::optional<CylinderRegion> cylinderFrom(std::uint32_t seed, const FitLevel& level,
                                             const std::vector<bool>& taken);
  std::optional<BallRegion> ballFrom(std::uint32_t seed, const FitLevel& level,
                                     const std::vector<bool>& taken);

  /// The region as far as it goes at a looser level.
  std::optional<CylinderRegion> loosened(const CylinderRegion& region, const FitLevel& level,
                                         const std::vector<bool>& taken);
  std::optional<BallRegion> loosened(const BallRegion& region, const FitLevel& level,
                                     const std::vector<bool>& taken);

  /// Triangles round `seed`, nearest first.
  const std::vector<std::uint32_t>& around(std::uint32_t seed, const FitLevel::Seed& wanted,
                                           const std::vector<bool>& taken);
  /// Nothing bends next to it: no round surface starts there.
  bool isFlatAround(std::uint32_t triangle) const;

  /// The largest region of the last question, whatever became of it: none is found from there.
  const std::vector<std::uint32_t>& lastGrown() const { return lastGrown_; }

  std::vector<Eigen::Vector3d> cornersOf(const std::vector<std::uint32_t>& triangles);

 private:
  template <typename Fit>
  std::vector<std::uint32_t> grown(std::uint32_t seed, const Fit& fit, bool outward,
                                   const FitLevel& level, const std::vector<bool>& taken);
  template <typename Fit, typename Refit>
  std::optional<Region<Fit>> settled(std::uint32_t seed, Fit fit, const FitLevel& level,
                                     const std::vector<bool>& taken, Refit refit);
  bool isOn(std::uint32_t t, const CylinderFit& fit, bool outward, const FitLevel& level) const;
  bool isOn(std::uint32_t t, const BallFit& fit, bool outward, const FitLevel& level) const;
  bool mayBecome(const CylinderRegion& region, const FitLevel& level) const;
  bool mayBecome(const BallRegion& region, const FitLevel& level) const;
  bool isSliver(std::uint32_t t) const { return sliver_[t]; }
  bool bendsOver(std::uint32_t a, std::uint32_t b, double cosMost) const;
  void newStamp();

  const TriangleMesh& mesh_;
  const SurfaceTopology& topology_;
  std::vector<bool> sliver_;  ///< Too thin for its normal to mean much.
  std::vector<std::uint32_t> stamps_, cornerStamps_;
  std::uint32_t stamp_ = 0;
  std::vector<std::uint32_t> around_, lastGrown_;
};

/// How much of a turn the region goes round, gaps left out.
double coverageOf(const TriangleMesh& mesh, const CylinderRegion& region);
/// Variances of the facets' normals, by area, along the three directions in which they vary least,
/// more and most. The least is 0 on any band that a cone or cylinder could be as well.
Eigen::Vector3d normalSpread(const SurfaceTopology& topology,
                             const std::vector<std::uint32_t>& triangles);

/// It ends for the most part where the surface goes on smoothly, and not before the tolerance is
/// used up: a patch of something that bends otherwise.
template <typename Fit>
bool isPatchOfOther(const TriangleMesh& mesh, const SurfaceTopology& topology,
                    const Region<Fit>& region, const FitLevel& level);

/// The region goes on smoothly at both ends as a torus, a barrel or a ball does: it is a row of
/// facets of these.
bool isPieceOfBend(const TriangleMesh& mesh, const SurfaceTopology& topology,
                   const CylinderRegion& region, const FitLevel& level);

}  // namespace swingroom
