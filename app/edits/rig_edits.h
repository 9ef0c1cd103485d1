#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/edits/mode_edits.h"

/// Edits of what hangs on what, and how. Numbers as the file has them: degrees, mm, the assembly
/// frame with every joint at 0. Each gives a whole new document, which can be read if the one
/// before could, or says why it cannot be. What else goes or comes is told, a clause each.
namespace swingroom::edits {

/// Where a joint's axis is; a ball needs `through` only, a slide `along` only.
struct JointAxis {
  std::optional<ThreeNumbers> through, along;

  bool operator==(const JointAxis&) const = default;
};

/// "thigh port hinge", "pin on torso": for a joint that no one has named; not taken yet.
std::string jointNameFor(const AssemblyDocument& document, const DocumentJoint& joint);

/// One more joint, with 0 as its value in every mode where it holds. To a parent that the child has
/// a joint to already it is one more of that mount, moved by those before it; to another it is a
/// mount of its own, and every mode goes on with the mount that it had.
/// @param joint  Without a name it gets one; a name that is taken gets a number behind it.
Edited addJoint(const AssemblyDocument& document, const DocumentJoint& joint);

/// With its values in modes and steps, what follows it (which keeps its values as its own) and its
/// mount.
Outcome<Removal> removeJoint(const AssemblyDocument& document, const std::string& name);

/// In every place that names it.
Edited renameJoint(const AssemblyDocument& document, const std::string& name,
                   const std::string& wanted);

/// Hangs the child on another part (none: the ground), with all joints of that mount. Nothing
/// moves: axes and values stay.
Outcome<Removal> reparentJoint(const AssemblyDocument& document, const std::string& name,
                               const std::optional<std::string>& parent);

/// Makes `part` the one that stands still: what it hung on hangs on it, by the same joints the
/// other way round, so that no two parts move otherwise against each other. Joints to the ground on
/// the way go.
Outcome<Removal> groundPart(const AssemblyDocument& document, const std::string& part);

/// Another type. A hinge's values become the same turns of a ball; between others values cannot be
/// kept: they go to 0, and range, clicks and following with them.
/// @param axis  What of it is none stays as it is.
Outcome<Removal> retypeJoint(const AssemblyDocument& document, const std::string& name,
                             JointType type, const JointAxis& axis = {});

/// The other direction: values, range, clicks, zones and following change sign, so that everything
/// stands where it did.
Edited reverseJoint(const AssemblyDocument& document, const std::string& name);

/// Values stay; what of the axis is none stays too.
Edited setJointAxis(const AssemblyDocument& document, const std::string& name,
                    const JointAxis& axis);

/// Refused where a mode, step or click is outside. None: unlimited.
Edited setJointRange(const AssemblyDocument& document, const std::string& name,
                     const std::optional<DocumentRange>& range);
Edited setJointClicks(const AssemblyDocument& document, const std::string& name,
                      std::vector<double> clicks);
/// mm on the diameter.
Edited setJointFit(const AssemblyDocument& document, const std::string& name,
                   std::optional<double> fitMm);
Edited setJointZones(const AssemblyDocument& document, const std::string& name,
                     const std::vector<DocumentZone>& zones);

/// Follows another joint from now on, in place of its values; none: its values are its own again,
/// those that it had by following.
Outcome<Removal> setJointFollows(const AssemblyDocument& document, const std::string& name,
                                 const std::optional<DocumentFollows>& follows);

}  // namespace swingroom::edits
