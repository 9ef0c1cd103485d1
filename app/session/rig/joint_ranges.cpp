#include "app/session/rig/joint_ranges.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

constexpr double kSlideMarginMm = 10;  ///< Past what modes reach, where a slide has no range.

/// What the modes and steps use of a hinge or slide.
std::pair<double, double> reachOf(const Scene& scene, JointId joint) {
  double least = 0, greatest = 0;
  const auto take = [&](const Configuration& standing) {
    least = std::min(least, standing.values[joint.index].x());
    greatest = std::max(greatest, standing.values[joint.index].x());
  };
  for (const Mode& mode : scene.loaded.modes) take(mode.configuration);
  for (const Sequence& way : scene.ways) {
    for (const Step& step : way.steps) take(step.end);
  }
  return {least, greatest};
}

}  // namespace

DriveRange rangeOf(const Scene& scene, const JointDrive& drive) {
  const Joint& joint = scene.assembly().joint(drive.joint);
  if (joint.type == JointType::ball) return {drive, -kPi, kPi};
  const auto [leastUsed, greatestUsed] = reachOf(scene, drive.joint);
  const bool slides = joint.type == JointType::slide;
  DriveRange range{drive, joint.range.min, joint.range.max};
  if (!std::isfinite(range.least)) {
    range.least = slides ? leastUsed - kSlideMarginMm : std::min(-kPi, leastUsed);
  }
  if (!std::isfinite(range.greatest)) {
    range.greatest = slides ? greatestUsed + kSlideMarginMm : std::max(kPi, greatestUsed);
  }
  return range;
}

std::vector<DriveRange> drivesOf(const Scene& scene, const Configuration& standing, PartId part) {
  std::vector<DriveRange> drives;
  const Assembly& assembly = scene.assembly();
  if (part.index >= assembly.parts().size()) return drives;
  const Mount* mount = holdingMount(assembly, standing, part);
  if (!mount) return drives;
  for (const JointId id : mount->joints) {
    const Joint& joint = assembly.joint(id);
    if (joint.type == JointType::fixed || joint.follows) continue;
    const int components = joint.type == JointType::ball ? 3 : 1;
    for (int c = 0; c < components; ++c) drives.push_back(rangeOf(scene, {id, c}));
  }
  return drives;
}

std::vector<DriveRange> ballTurnsOf(const Scene& scene, JointId ball) {
  std::vector<DriveRange> turns;
  for (const Vector3d& axis :
       {scene.front_W, Vector3d(scene.up_W.cross(scene.front_W)), scene.up_W}) {
    turns.push_back({{ball, 0, axis.normalized()}, -kPi, kPi});
  }
  return turns;
}

}  // namespace swingroom
