#include "tests/support/mechanism.h"

#include <memory>

namespace swingroom {

PartId Mechanism::addPart(const std::string& name, const TriangleMesh& mesh) {
  parts_.parts.push_back(
      {name, PartKind::printed, std::make_shared<const TriangleMesh>(mesh), Pose::Identity()});
  return PartId{parts_.parts.size() - 1};
}

JointId Mechanism::add(Joint joint) {
  joint.name = "joint " + std::to_string(parts_.joints.size());
  parts_.joints.push_back(std::move(joint));
  return JointId{parts_.joints.size() - 1};
}

JointId Mechanism::addHinge(PartId child, std::optional<PartId> parent, const Vector3d& through, const Vector3d& along) {
  Joint joint;
  joint.type = JointType::hinge;
  joint.child = child;
  joint.parent = parent;
  joint.through = through;
  joint.along = along.normalized();
  return add(joint);
}

JointId Mechanism::addSlide(PartId child, std::optional<PartId> parent, const Vector3d& along) {
  Joint joint;
  joint.type = JointType::slide;
  joint.child = child;
  joint.parent = parent;
  joint.along = along.normalized();
  return add(joint);
}

JointId Mechanism::addBall(PartId child, std::optional<PartId> parent, const Vector3d& through) {
  Joint joint;
  joint.type = JointType::ball;
  joint.child = child;
  joint.parent = parent;
  joint.through = through;
  return add(joint);
}

JointId Mechanism::addFixed(PartId child, PartId parent) {
  Joint joint;
  joint.child = child;
  joint.parent = parent;
  return add(joint);
}

void Mechanism::addStep(JointId joint, const JointValue& value, StepOrder order) { addStep({{joint, value}}, order); }

void Mechanism::addStep(const std::vector<std::pair<JointId, JointValue>>& moves, StepOrder order) {
  steps_.emplace_back(moves, order);
}

Sequence Mechanism::sequence() const {
  Sequence sequence{"there", ModeId{0}, ModeId{1}, {}};
  Configuration here = assembly().home();
  for (const auto& [moves, order] : steps_) {
    Step step{"step " + std::to_string(sequence.steps.size() + 1), order, here, here};
    for (const auto& [joint, value] : moves) step.end.values[joint.index] = value;
    here = step.end;
    sequence.steps.push_back(step);
  }
  if (steps_.empty()) sequence.steps.push_back({"stand", StepOrder::together, here, here});
  return sequence;
}

std::vector<Mode> Mechanism::modes() const {
  const Sequence way = sequence();
  return {{"start", way.steps.front().start}, {"end", way.steps.back().end}};
}

SequenceResult Mechanism::check(unsigned threads) const {
  const Assembly built = assembly();
  SweepSettings settings;
  settings.resolutionMm = built.resolutionMm();
  settings.threads = threads;
  WorkMonitor monitor;
  return sweep(built, modes(), sequence(), prepareGeometry(built, threads), settings, monitor);
}

}  // namespace swingroom
