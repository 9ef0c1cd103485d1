#pragma once

#include <mutex>
#include <optional>
#include <vector>

#include "core/mesh/feature_finder.h"
#include "core/mesh/flat_features.h"
#include "core/mesh/region_growth.h"

namespace swingroom {

/// Triangles from which no region of the kind needs to be grown again at the level.
struct TriedSeeds {
  explicit TriedSeeds(std::size_t count) : asBall(count, false), asCylinder(count, false) {}

  static void mark(std::vector<bool>& tried, const std::vector<std::uint32_t>& triangles) {
    for (const std::uint32_t t : triangles) tried[t] = true;
  }

  std::vector<bool> asBall, asCylinder;
};

/// The regions of a surface and which triangle is of which.
struct FeatureFinder::Found {
  static constexpr std::uint32_t kNoRegion = SurfaceTopology::kNone;

  explicit Found(const TriangleMesh& given);

  void findAt(const FitLevel& level, RegionGrowth& growth);
  bool takeBall(std::uint32_t seed, const FitLevel& level, RegionGrowth& growth, TriedSeeds& tried);
  bool takeCylinder(std::uint32_t seed, const FitLevel& level, RegionGrowth& growth,
                    TriedSeeds& tried);
  template <typename Region, typename Accept>
  void widen(Region& region, const FitLevel& level, RegionGrowth& growth, Accept accept);
  bool isCylinder(const CylinderRegion& region, const FitLevel& level) const;
  bool isBall(const BallRegion& region, const FitLevel& level) const;
  void joinPieces();
  bool isPieceOfOne(const CylinderRegion& a, const CylinderRegion& b) const;
  void nameRegions();
  void take(const std::vector<std::uint32_t>& triangles);
  void checkIndex(std::size_t triangle) const;
  std::optional<CylinderFeature> smallCylinderAt(std::uint32_t seed) const;
  const BodyEdges& edges() const;

  TriangleMesh mesh;
  SurfaceTopology topology;
  std::vector<FitLevel> levels;
  std::vector<bool> taken;
  std::vector<CylinderRegion> cylinders;
  std::vector<BallRegion> balls;
  std::vector<std::uint32_t> cylinderOf, ballOf;  // By triangle: index into the regions.
  Features features;

 private:
  mutable std::once_flag edgesMade_;
  mutable std::optional<BodyEdges> edges_;
};

}  // namespace swingroom
