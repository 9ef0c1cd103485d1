#pragma once

#include <vector>

#include "core/base/transform.h"
#include "core/proximity/solid.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// A face of one part that lies in the other's material and presses against its wall; in the first
/// part's frame, mm.
struct PressPatch {
  Vector3d normal = Vector3d::UnitZ();  ///< Mean, unit, out of the first part.
  Vector3d middle = Vector3d::Zero();   ///< Of its area.
  double areaMm2 = 0;
  double lengthMm = 0, widthMm = 0;  ///< Extents along the longest way in it, and across.
};

/// Pieces of `surface` (part A) less than 1 mm inside `solid` (part B), behind a wall of B that
/// looks at them, gathered by the way they look. Pieces are halved down to 0.2 mm, so that rims are
/// right to about that. Largest first. @param X_BA  Pose of A's frame in B's.
std::vector<PressPatch> pressPatches(const BoundingTree& surface, const Solid& solid,
                                     const Pose& X_BA);

}  // namespace swingroom
