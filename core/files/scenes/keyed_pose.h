#pragma once

#include <vector>

#include "core/files/scenes/scene_file.h"

namespace swingroom {

/// A node against its parent, as the file has it at rest.
Eigen::Affine3d localOf(const SceneNode& node);

/// Where every node stands in the file's frame, in its own unit; as it is at rest without an
/// animation, else at `timeS`. Quantities that the animation does not have stay as at rest; before
/// its first and after its last key a track stands still. glTF 2.0 Specification, 3.11 and
/// appendix C.
std::vector<Eigen::Affine3d> nodePlaces(const std::vector<SceneNode>& nodes,
                                        const SceneAnimation* animation = nullptr,
                                        double timeS = 0);

/// Value of a track at one time; a rotation as a unit quaternion x, y, z, w.
Eigen::Vector4d valueAt(const SceneTrack& track, double timeS);

/// All times at which any track has a key, rising, each once. Times nearer than 1e-6 s are one.
std::vector<double> keyedTimes(const SceneAnimation& animation);

}  // namespace swingroom
