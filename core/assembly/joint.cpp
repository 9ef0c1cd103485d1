#include "core/assembly/joint.h"

namespace swingroom {

Pose displacementOf(const Joint& joint, const JointValue& value) {
  switch (joint.type) {
    case JointType::hinge:
      return rotationAbout(joint.through, joint.along, value.x());
    case JointType::slide:
      return translation(joint.along * value.x());
    case JointType::ball: {
      const double angleRad = value.norm();
      if (angleRad == 0) return Pose::Identity();
      return rotationAbout(joint.through, value / angleRad, angleRad);
    }
    case JointType::fixed:
      break;
  }
  return Pose::Identity();
}

}  // namespace swingroom
