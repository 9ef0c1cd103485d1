#pragma once

#include <string>
#include <vector>

#include "core/assembly/joint.h"

namespace swingroom {

/// How far a displacement is from the one that was wanted.
struct Misfit {
  double mm = 0;   ///< The farthest that one of the points ends from where it should.
  double rad = 0;  ///< Angle between the two orientations.
};

/// @param points Of the part that is displaced, in the frame in which both displacements are
/// written, mm.
Misfit misfitOf(const Pose& D, const Pose& D_wanted, const std::vector<Vector3d>& points);

struct JointFit {
  std::vector<JointValue> values;  ///< One a joint of the chain.
  Misfit misfit;                   ///< What is left with these values.
};

/// The joint values that bring a child nearest to a wanted displacement against its parent.
///
/// Nearest is the least sum of squared distances over the corners of the box round `points` (at
/// least 2 mm wide). Closed form for one hinge, slide or ball; else damped Gauss-Newton from
/// several starts, the same in every run. Hinge angles are brought into the joint's range by whole
/// turns where that is possible; apart from that ranges, clicks and followers are for the caller to
/// judge.
/// @param chain Joints of one mount, in file order; axes in the assembly frame with every joint at
/// 0.
/// @param D_PC Wanted displacement of the child against its parent, in the assembly frame at home.
/// @param points_W Points of the child at home. None: the corners of a box about the first joint.
/// @throws std::invalid_argument if the chain is empty.
JointFit fitJoints(const std::vector<Joint>& chain, const Pose& D_PC,
                   const std::vector<Vector3d>& points_W);

/// Displacement of the chain at `values`.
Pose displacementOf(const std::vector<Joint>& chain, const std::vector<JointValue>& values);

/// Joints to the ground that make displacement `D`: a hinge "<name> turn", a slide "<name> travel"
/// along the same axis, or both. Turns under 1e-5 rad and travels under 1e-3 mm are left out; none
/// for no motion.
std::vector<Joint> jointsFromScrew(const std::string& name, PartId child, const Pose& D);

}  // namespace swingroom
