#pragma once

#include <vector>

#include "core/assembly/assembly.h"
#include "core/motion/sequence.h"

/// How two parts stand and how fast they can move against each other, worked out from what the
/// joints are defined to be. Uses no function of core/assembly or core/motion, only their data.
/// Parts hang on one parent each.
namespace swingroom::random_suite {

class PairKinematics {
 public:
  PairKinematics(const Assembly& assembly, const Sequence& sequence, PartId a, PartId b);

  std::size_t steps() const { return sequence_.steps.size(); }
  /// Steps are equal shares of the instants 0 to 1.
  Pose at(double instant) const;
  /// @param shares  How far each joint is through the step, 0 to 1, by JointId.
  Pose at(std::size_t step, const std::vector<double>& shares) const;
  /// @param values  Of every joint, by JointId.
  Pose at(const std::vector<JointValue>& values) const;

  /// No points of the two parts approach faster than this in the step, mm per whole step.
  double speedBound(std::size_t step) const;
  /// Joints that move the two against each other in the step.
  std::vector<JointId> movers(std::size_t step) const;
  /// A hand may move two or more of them in any order.
  bool isFree(std::size_t step) const;
  bool anyFree() const;

 private:
  std::vector<JointId> chainOf(PartId part) const;
  /// @param poseOf  What a joint does to what it carries.
  template <typename PoseOf>
  Pose worldPose(PartId part, const PoseOf& poseOf) const;
  double speedOf(PartId part, const std::vector<JointId>& chain, std::size_t step) const;

  const Assembly& assembly_;
  const Sequence& sequence_;
  PartId a_, b_;
  std::vector<JointId> chainA_, chainB_;  ///< From the ground outwards, without what carries both.
};

}  // namespace swingroom::random_suite
