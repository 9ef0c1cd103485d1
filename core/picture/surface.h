#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/picture/camera.h"

namespace swingroom {

/// A triangle as the camera sees it.
struct DrawnTriangle {
  std::array<Vector3d, 3> corners;           ///< Pixels from the left, from the top, mm of depth.
  std::array<Eigen::Vector3f, 3> normals_W;  ///< For shading.
  Eigen::Vector3f flat_W;                    ///< Of the plane.
  Eigen::Vector2d slope;                     ///< Depth's growth a pixel to the right and down, mm.
  std::uint32_t shape = 0;
  std::uint32_t face = 0;  ///< Smooth face, unique among all shapes.
};

/// Everything that is drawn, by shape; triangles that cannot be drawn are left out.
struct SeenSurface {
  std::vector<DrawnTriangle> triangles;
  std::vector<std::size_t> firsts;  ///< By shape, and one more: its first triangle.
  double lowestZ = 0;               ///< mm, of all shapes.
  Vector3d p_WMiddle = Vector3d::Zero();
  double radiusMm = 0;  ///< Of a ball round all shapes.
};

/// @throws std::invalid_argument for a triangle that names a vertex that is not there.
SeenSurface makeSeenSurface(const PictureRequest& request, const Camera& camera);

}  // namespace swingroom
