#pragma once

#include <vector>

#include "core/assembly/assembly.h"
#include "core/motion/sequence.h"

namespace swingroom {

/// One joint on the way from A to B as it moves at one instant, in the frame of A. Rates are per whole step.
struct MovingAxis {
  Vector3d point = Vector3d::Zero();
  Vector3d direction = Vector3d::UnitZ();  ///< Unit.
  double turnRateRad = 0;                  ///< Of what lies towards B, about the axis.
  double slideRateMm = 0;                  ///< Along the axis.
  JointId joint;
};

/// How B stands and moves against A at one instant of a step.
struct MotionAtInstant {
  Pose X_AB = Pose::Identity();
  /// From A outwards: each is carried by those before it. Joints that stand still are left out.
  std::vector<MovingAxis> axes;
};

/// The same instant seen from B: how A stands and moves against B.
MotionAtInstant seenFromB(const MotionAtInstant& motion);

/// Motion of part B against part A during one step. Joints above the parts' common ancestor do not count.
/// Const from any thread.
class RelativeMotion {
 public:
  /// @throws std::invalid_argument if the mounts that hold form a ring, or a part is not there.
  RelativeMotion(const Assembly& assembly, const Step& step, PartId a, PartId b);

  /// A and B never move against each other in this step (a replug is looked at where it starts).
  bool isConstant() const { return movingJoints_ == 0; }
  /// How many joints between A and B move.
  std::size_t movingJoints() const { return movingJoints_; }

  /// @param part How far into the step, 0 to 1.
  MotionAtInstant at(double part) const;

  /// A joint on the way from A to B.
  struct Link {
    const Joint* joint = nullptr;
    JointId id;
    bool towardsParent = false;  ///< Passed from child to parent: the inverse displacement.
    bool moves = false;
    JointValue start;
    JointValue end;
  };
  /// From A to B, without fixed ones. These and where both parts stand at home are all that `at` reads.
  const std::vector<Link>& links() const { return links_; }

 private:
  void addLinks(const Assembly& assembly, const Step& step, const std::vector<PartId>& parts, bool towardsParent);

  Pose X_AW_home_;
  Pose X_WB_home_;
  std::vector<Link> links_;
  std::size_t movingJoints_ = 0;
};

/// B against A as everything stands in `configuration`: not in motion.
/// @throws std::invalid_argument as RelativeMotion.
RelativeMotion standingStill(const Assembly& assembly, const Configuration& configuration, PartId a, PartId b);

}  // namespace swingroom
