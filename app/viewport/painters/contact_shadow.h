#pragma once

#include <vector>

#include "app/viewport/painters/floor_frame.h"
#include "app/viewport/view_mesh.h"

namespace swingroom {

/// How dark the floor is in a square of it: what stands on it or close above it keeps the sky off.
struct ShadowGrid {
  static constexpr int kCells = 128;  ///< Along each side.

  Eigen::Vector2d corner = Eigen::Vector2d::Zero();  ///< Of least floor coordinates, mm.
  double sideMm = 0;
  std::vector<std::uint8_t> darkness;  ///< Rows of equal `across`; 255: no sky.
};

/// A mesh and where it stands.
struct PlacedMesh {
  const ViewMesh* mesh = nullptr;
  Pose X_WP = Pose::Identity();
};

/// Each surface point darkens the cell under it, the less the higher it is; then blurred. Half a
/// millisecond for 40 parts: cheap enough for every frame.
ShadowGrid contactShadow(const std::vector<PlacedMesh>& meshes, const FloorFrame& floor,
                         const ViewBounds& bounds);

}  // namespace swingroom
