#pragma once

#include <optional>
#include <vector>

#include "core/print/subject.h"
#include "core/rigging/rig_part.h"

namespace swingroom {

/// What moves on each side of a joint, as it stands at home or in a mode.
struct JointStanding {
  std::optional<ModeId> mode;  ///< None: every joint at 0.
  std::vector<PartId> childSide,
      parentSide;           ///< The joint's own part first. Only those with a mesh.
  std::vector<Pose> X_WPs;  ///< By PartId.
  Vector3d through_W = Vector3d::Zero(), along_W = Vector3d::UnitZ();  ///< Of the joint's axis.
};

/// Home, then every mode in which the joint holds. Nothing for a joint on the ground.
/// Parts that are fixed to the joint's two count as theirs; of a fixed joint only the two.
std::vector<JointStanding> standingsOf(const PrintSubject& subject, JointId joint);

/// The parts as they stand, for `axisFitsBetween` and its like.
std::vector<RigPart> placedRigParts(const std::vector<RigPart>& parts,
                                    const JointStanding& standing);

}  // namespace swingroom
