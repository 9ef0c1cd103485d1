#pragma once

#include <Eigen/Core>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/base/transform.h"

namespace swingroom {

enum class JointType { hinge, slide, ball, fixed };

/// Where a joint stands. Hinge: (angleRad, 0, 0). Slide: (mm, 0, 0). Ball: a rotation vector, rad.
/// Fixed: zero.
using JointValue = Eigen::Vector3d;

/// A piece of cylinder about the joint's axis (a sphere for a ball), in the assembly frame with every
/// joint at 0, in which the joint's two parts touch by design. Both parts carry it with them.
struct JointZone {
  double radiusMm = 0;
  double fromMm = 0;  ///< Along `along`, from `through`. Unused for a ball.
  double toMm = 0;
};

/// How far a joint may go. Hinge and slide use `min`, `max` (rad or mm); a ball uses `maxSwingRad` off its
/// `along` and `min`, `max` as the twist about it, rad.
struct JointRange {
  double min = -std::numeric_limits<double>::infinity();
  double max = std::numeric_limits<double>::infinity();
  double maxSwingRad = std::numeric_limits<double>::infinity();
};

/// The value of another joint, times `ratio`, plus `offset` (rad or mm). Hinges and slides only.
struct JointFollow {
  JointId leader;
  double ratio = 1;
  double offset = 0;
};

/// How a part hangs on its parent. Axes are given in the assembly frame W as everything stands with every
/// joint at 0.
struct Joint {
  std::string name;
  JointType type = JointType::fixed;
  std::optional<PartId> parent;  ///< None: the ground.
  PartId child;
  Vector3d through = Vector3d::Zero();   ///< A point of the axis, or the ball's centre.
  Vector3d along = Vector3d::UnitZ();    ///< Unit.
  JointRange range;
  std::vector<double> clicks;            ///< Values at which it holds, rad or mm.
  std::optional<double> fitMm;           ///< Wanted diametral clearance; negative: interference.
  std::vector<JointZone> zones;
  std::optional<JointFollow> follows;
};

/// Displacement of the child against the parent, in the assembly frame at home, when `joint` stands at
/// `value`: X_WC = D_parent * displacement * X_WC_home.
Pose displacementOf(const Joint& joint, const JointValue& value);

}  // namespace swingroom
