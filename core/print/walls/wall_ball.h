#pragma once

#include <array>
#include <optional>
#include <vector>

#include "core/print/walls/wall_surface.h"

namespace swingroom {

/// A point, a straight edge or a flat piece of a surface that the material lies under.
struct WallElement {
  TriangleCorners corners;  ///< Of a point or an edge some are equal.
  Eigen::Vector3d normal;   ///< Unit, out of the material.
  Eigen::Vector3d middle;
  double radiusMm = 0;  ///< Of the ball about `middle` that holds it.

  static WallElement point(const Eigen::Vector3d& p, const Eigen::Vector3d& normal);
  static WallElement edge(const Eigen::Vector3d& a, const Eigen::Vector3d& b,
                          const Eigen::Vector3d& normal);
  static WallElement piece(const TriangleCorners& corners, const Eigen::Vector3d& normal);
};

/// A ball that touches the element from inside and, opposite, another side.
struct WallBall {
  double diameterMm = 0;
  Eigen::Vector3d at;      ///< On the element.
  Eigen::Vector3d other;   ///< On the other side.
  std::uint32_t face = 0;  ///< Of the other side.

  /// Cosine of how far the other side is off the straight way in.
  double cosOff(const Eigen::Vector3d& normal) const;
};

/// The smallest ball that touches `element` at any of its points from inside and another side
/// opposite, not larger than `mostMm`; none: there is none. Opposite is what lies within 30 degrees
/// of the straight way in (34 at corners of the element) on a face opposed by 120 degrees or more,
/// or on a groove's edge. Whether something lies between the two is not looked at, so that no ball
/// that is seen is smaller, by more than `slack` of
/// its size.
std::optional<WallBall> smallestBall(const WallSurface& surface, const WallElement& element,
                                     double mostMm, double slack = 1e-7);

}  // namespace swingroom
