#pragma once

#include <string>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/motion/sequence.h"
#include "core/sweep/sweep.h"

/// Small assemblies for tests: parts of given meshes, joints, two modes and one sequence between them.
namespace swingroom {

/// A hinge value of so many degrees.
inline JointValue deg(double angle) {
  return {radFromDeg(angle), 0, 0};
}

class Mechanism {
 public:
  /// Part at home where its mesh stands. @returns its id.
  PartId addPart(const std::string& name, const TriangleMesh& mesh);
  JointId addHinge(PartId child, std::optional<PartId> parent, const Vector3d& through, const Vector3d& along);
  JointId addSlide(PartId child, std::optional<PartId> parent, const Vector3d& along);
  JointId addBall(PartId child, std::optional<PartId> parent, const Vector3d& through);
  JointId addFixed(PartId child, PartId parent);
  Joint& joint(JointId id) { return parts_.joints.at(id.index); }
  AssemblyParts& parts() { return parts_; }

  /// Adds a step in which the joint goes to `value` (rad, mm or rotation vector); others stay.
  void addStep(JointId joint, const JointValue& value, StepOrder order = StepOrder::together);
  /// Adds a step in which several joints move.
  void addStep(const std::vector<std::pair<JointId, JointValue>>& moves, StepOrder order = StepOrder::together);

  Assembly assembly() const { return Assembly(parts_); }
  Sequence sequence() const;
  std::vector<Mode> modes() const;

  /// The whole check on `threads` threads.
  SequenceResult check(unsigned threads = 1) const;
  /// The result of its only pair, or of the pair of the first two parts.
  PairResult checkFirstPair() const { return check().pairs.at(0); }

 private:
  JointId add(Joint joint);

  AssemblyParts parts_;
  std::vector<std::pair<std::vector<std::pair<JointId, JointValue>>, StepOrder>> steps_;
};

}  // namespace swingroom
