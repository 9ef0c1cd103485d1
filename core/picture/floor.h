#pragma once

#include <optional>

#include "core/picture/camera.h"
#include "core/picture/colour.h"
#include "core/picture/surface.h"

namespace swingroom {

/// The print bed: a grid of 10 mm squares in the plane z = lowest point, fading out round the
/// shapes.
class Floor {
 public:
  Floor(const PictureRequest& request, const Camera& camera, const SeenSurface& surface);

  /// Depth at which the floor is seen, mm; none where it is not: not asked for, faded out, seen
  /// from below or on edge.
  std::optional<double> depthAt(double x, double y) const;
  /// Where `depthAt` has a value.
  Paint paintAt(double x, double y, float openness) const;

 private:
  double fadeAt(const Vector3d& p_W) const;
  Vector3d hit(double x, double y) const;
  float gridAt(const Vector3d& p_W) const;

  bool shown_ = false;
  Camera camera_;
  double z_ = 0;
  Vector3d p_WMiddle_ = Vector3d::Zero();
  double reachMm_ = 0;
  double spacingMm_ = 10;
  std::array<double, 2> mmAPixel_{1, 1};  ///< How fast world x and y change in the picture.
};

}  // namespace swingroom
