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
  std::size_t freedom = 0;  ///< Which of the motion's freedoms moves it.
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
  bool isConstant() const { return leaders_.empty(); }

  /// In how many ways a hand can move the two: joints that follow one leader go with it.
  std::size_t freedoms() const { return leaders_.size(); }

  /// @param part How far into the step, 0 to 1.
  MotionAtInstant at(double part) const;
  /// @param parts  How far each freedom is, 0 to 1.
  MotionAtInstant at(const std::vector<double>& parts) const;

  /// A joint on the way from A to B.
  struct Link {
    const Joint* joint = nullptr;
    JointId id;
    bool towardsParent = false;  ///< Passed from child to parent: the inverse displacement.
    bool moves = false;
    std::size_t freedom = 0;     ///< If it moves.
    JointValue start;
    JointValue end;
  };
  /// From A to B, without fixed ones. These and where both parts stand at home are all that `at` reads.
  const std::vector<Link>& links() const { return links_; }

 private:
  void addLinks(const Assembly& assembly, const Step& step, const std::vector<PartId>& parts, bool towardsParent);
  std::size_t freedomOf(const Assembly& assembly, JointId joint);
  template <typename PartOf>
  MotionAtInstant standAt(const PartOf& partOf) const;

  Pose X_AW_home_;
  Pose X_WB_home_;
  std::vector<Link> links_;
  std::vector<JointId> leaders_;  ///< By freedom.
};

/// B against A as everything stands in `configuration`: not in motion.
/// @throws std::invalid_argument as RelativeMotion.
RelativeMotion standingStill(const Assembly& assembly, const Configuration& configuration, PartId a, PartId b);

}  // namespace swingroom
