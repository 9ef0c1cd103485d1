#pragma once

#include <optional>
#include <vector>

#include "core/assembly/assembly.h"

namespace swingroom {

/// Where all parts stand in one configuration, and each pair to each other. Const from any thread.
class PartTree {
 public:
  /// @throws std::invalid_argument if the mounts that hold form a ring.
  PartTree(const Assembly& assembly, const Configuration& configuration);

  /// World poses, by PartId.
  const std::vector<Pose>& poses() const { return poses_; }

  /// B's pose in A's frame, from the joints between the two alone: to the last bit the same in all
  /// configurations in which these are the same.
  Pose relativePose(PartId a, PartId b) const;

 private:
  const Assembly* assembly_;
  std::vector<Pose> poses_;
  std::vector<std::optional<PartId>> parents_;  ///< By PartId; none: the ground.
  std::vector<Pose> onParent_;                  ///< Displacement by the part's own joints.
  std::vector<std::size_t> depths_;             ///< Of parts that stand on the ground: 0.
};

}  // namespace swingroom
