#include "core/motion/sequence.h"

#include <algorithm>
#include <cmath>

#include "core/motion/screw.h"

namespace swingroom {
namespace {

Eigen::Matrix3d rotationOf(const Vector3d& rotationVector) {
  const double angleRad = rotationVector.norm();
  if (angleRad == 0) return Eigen::Matrix3d::Identity();
  return Eigen::AngleAxisd(angleRad, rotationVector / angleRad).toRotationMatrix();
}

}  // namespace

StepInstant stepAt(const Sequence& sequence, double instant) {
  const double count = static_cast<double>(sequence.steps.size());
  const double clamped = std::clamp(instant, 0.0, 1.0);
  const double scaled = clamped * count;
  const std::size_t last = sequence.steps.size() - 1;
  std::size_t step = std::min(static_cast<std::size_t>(scaled), last);
  // Step k begins at the double nearest k / count, on whichever side of k the product comes out.
  if (step < last && clamped >= static_cast<double>(step + 1) / count) ++step;
  if (clamped < static_cast<double>(step) / count) --step;
  return {step, std::clamp(scaled - static_cast<double>(step), 0.0, 1.0)};
}

Vector3d ballTurn(const JointValue& start, const JointValue& end) {
  return rotationVectorOf(rotationOf(end) * rotationOf(start).transpose());
}

JointValue valueBetween(const Joint& joint, const JointValue& start, const JointValue& end, double part) {
  if (part <= 0 || start == end) return start;
  if (part >= 1) return end;
  if (joint.type != JointType::ball) return start + part * (end - start);
  return rotationVectorOf(rotationOf(part * ballTurn(start, end)) * rotationOf(start));
}

Configuration configurationIn(const Assembly& assembly, const Step& step, double part) {
  if (part >= 1) return step.end;
  if (step.order == StepOrder::replug) return step.start;
  Configuration here = step.start;
  for (std::size_t j = 0; j < here.values.size(); ++j) {
    here.values[j] = valueBetween(assembly.joint(JointId{j}), step.start.values[j], step.end.values[j], part);
  }
  return here;
}

Configuration configurationAt(const Assembly& assembly, const Sequence& sequence, double instant) {
  const StepInstant at = stepAt(sequence, instant);
  return configurationIn(assembly, sequence.steps.at(at.step), at.part);
}

}  // namespace swingroom
