#pragma once

#include "core/print/walls/wall_surface.h"

namespace swingroom {

/// What a thin place turns out to be when one walks from it along the middle of the material.
struct WallShape {
  enum class Form { sheet, neck, relief };

  Form form = Form::sheet;
  bool free = false;    ///< Held along one side only, or along none.
  double acrossMm = 0;  ///< Of a neck: its width across the thickness.
};

/// @param at,other  The two sides, mm. Eight ways are walked, 90 thicknesses at most; each ends
/// where the material ends (it is free that way) or becomes thicker by a third (it is held).
///  * A neck is no wider, across, than twice its thickness, and free there on both sides.
///  * A relief stands up from what holds it by less than 1.5 times its thickness, which is under
///    1.5 mm, or is but the rim
///    of something: the last thickness before the material ends, if it is thicker farther in.
WallShape shapeAt(const WallSurface& surface, const Eigen::Vector3d& at,
                  const Eigen::Vector3d& other);

/// Whether the middle between the two sides is well within the material, and not at a rim.
bool isWithin(const WallSurface& surface, const Eigen::Vector3d& at, const Eigen::Vector3d& other);

}  // namespace swingroom
