#pragma once

#include <vector>

#include "app/session/scene.h"
#include "core/motion/joint_drive.h"

namespace swingroom {

/// A number by which a hand can move a joint, and over which it is shown. Rad or mm.
struct DriveRange {
  JointDrive drive;
  double least = 0, greatest = 0;

  bool operator==(const DriveRange&) const = default;
};

/// The joint's range; where it has none, what modes and steps use of it and some more, at least a
/// whole turn. Of a ball half a turn each way.
DriveRange rangeOf(const Scene& scene, const JointDrive& drive);

/// The numbers of the joints by which the part hangs as everything stands, in order: one for a
/// hinge or slide, three for a ball. Joints that follow others are left out.
std::vector<DriveRange> drivesOf(const Scene& scene, const Configuration& standing, PartId part);

/// The axes, in the parent's frame, about which a ball is turned by its handles: the assembly's
/// front, sideways and up.
std::vector<DriveRange> ballTurnsOf(const Scene& scene, JointId ball);

}  // namespace swingroom
