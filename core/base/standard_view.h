#pragma once

#include <string_view>

#include "core/base/transform.h"

namespace swingroom {

/// A side that a figure is drawn from.
enum class StandardView { front, back, left, right, top, below };

/// What is right, up and away from the eye in a picture from that side; unit, square to each other.
struct ViewAxes {
  Vector3d right_W, up_W, away_W;

  /// mm to the right and up, from the world's origin.
  Eigen::Vector2d inView(const Vector3d& p_W) const { return {right_W.dot(p_W), up_W.dot(p_W)}; }
  Vector3d inWorld(const Eigen::Vector2d& p_V) const { return p_V.x() * right_W + p_V.y() * up_W; }
};

/// Left and right are the figure's own: from its right the eye stands at its right hand. From above
/// and from below its right hand is up in the picture, as the window looks at it.
/// @param up_W, front_W  Unit, square to each other.
ViewAxes axesOf(StandardView view, const Vector3d& up_W, const Vector3d& front_W);

}  // namespace swingroom
