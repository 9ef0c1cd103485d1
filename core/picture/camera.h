#pragma once

#include "core/picture/picture.h"

namespace swingroom {

/// Looks along parallel rays, as a technical drawing does: a length has the same size near and far.
struct Camera {
  Vector3d right_W, up_W, towards_W;  ///< Of unit length, square to each other.
  Vector3d p_WCentre;                 ///< Is seen in the middle of the picture, at depth 0.
  double pixelsPerMm = 1;
  double middleX = 0, middleY = 0;

  /// Pixels from the left and from the top, and mm along the view: less is nearer.
  Vector3d seen(const Vector3d& p_W) const;
  /// The point in the world that is seen there.
  Vector3d pointAt(double x, double y, double depth) const;
};

/// Coordinates beyond this, mm, are damage and are not drawn.
constexpr double kFarthestMm = 1e9;
bool isDrawable(const Vector3d& p_W);

/// Fits the focus, or all shapes and the ends of dimensions, into the picture with a margin round
/// it.
/// @throws std::invalid_argument for a view that is not finite or looks along `up`, or a focus
/// without size.
Camera fitCamera(const PictureRequest& request);

}  // namespace swingroom
