#pragma once

#include "app/viewport/view_camera.h"
#include "app/viewport/view_scene.h"

namespace swingroom {

/// The bed's plane with coordinates: along `front`, along the assembly's right, mm from the world's
/// origin.
struct FloorFrame {
  Vector3d along_W, across_W, up_W;
  double heightMm = 0;

  Eigen::Vector2d place(const Vector3d& p_W) const { return {along_W.dot(p_W), across_W.dot(p_W)}; }
  double above(const Vector3d& p_W) const { return up_W.dot(p_W) - heightMm; }
};

inline FloorFrame floorOf(const ViewScene& scene) {
  const ViewCamera upright = uprightCamera(scene.up, scene.front);
  return {upright.front_W, upright.sideways_W(), upright.up_W, scene.floorMm};
}

/// A ball round what is shown.
struct ViewBounds {
  Vector3d centre_W = Vector3d::Zero();
  double radiusMm = 0;  ///< 0: nothing is shown.
};

}  // namespace swingroom
