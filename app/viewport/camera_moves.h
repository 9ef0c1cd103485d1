#pragma once

#include <optional>
#include <vector>

#include "app/viewport/view_camera.h"

/// How the eye moves: each takes a camera and gives the moved one. Pixels as of the `ViewSize`.
namespace swingroom {

/// Turned by these angles about a point, which stays where it is seen.
ViewCamera orbited(const ViewCamera& camera, const Vector3d& pivot_W, double yawRad,
                   double pitchRad);

/// Moved square to the view so that a point seen at `from` is then seen at `to`.
ViewCamera panned(const ViewCamera& camera, const ViewSize& size, const Vector3d& grabbed_W,
                  const Eigen::Vector2d& from, const Eigen::Vector2d& to);

/// Nearer (factor below 1) or farther; the point stays where it is seen.
ViewCamera zoomed(const ViewCamera& camera, const Vector3d& point_W, double factor);

/// Turned so that it looks along `towards_W` (not zero); the target stays.
ViewCamera lookingAlong(const ViewCamera& camera, const Vector3d& towards_W);

/// The same direction, with all points in the picture and this share of its smaller side left free
/// all round. As it was without points.
ViewCamera fitted(const ViewCamera& camera, const ViewSize& size,
                  const std::vector<Vector3d>& points_W, double margin = 0.07);

/// `part` 0 to 1 of the way from one camera to another, the short way round.
ViewCamera between(const ViewCamera& from, const ViewCamera& to, double part);

}  // namespace swingroom
