#pragma once

#include <optional>

#include "core/print/joints/fits.h"
#include "core/print/joints/joint_sides.h"

namespace swingroom {

/// What stops the child's side along the joint's axis, both ways, within `reachMm` of the axis and
/// 1.5 mm along it: cheeks, heads, shoulders. Faces are looked at in samples (6000 a part); flat
/// ones across the axis are exact. Overlaps count up to 0.3 mm.
std::optional<AxialStop> axialStopOf(const PrintSubject& subject, const std::vector<RigPart>& parts,
                                     const JointStanding& standing, const Vector3d& at_W,
                                     const Vector3d& along_W, double reachMm);

}  // namespace swingroom
