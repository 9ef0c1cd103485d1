#pragma once

#include <vector>

#include "core/motion/relative_motion.h"
#include "core/print/joints/joint_play.h"
#include "core/sweep/part_geometry.h"

namespace swingroom {

/// Two parts and what hangs one on the other in one step of a way.
struct PlayedPair {
  const Assembly* assembly = nullptr;
  const AssemblyGeometry* geometry = nullptr;
  const std::vector<JointPlay>* plays = nullptr;  ///< By JointId.
  PartId a, b;
};

/// About where a joint's play turns what it carries: the middle of its fit, else of its zones, else
/// its point; in the assembly's frame with all joints at 0.
Vector3d playMiddle(const Joint& joint, const JointPlay& play);

/// A way's steps, and how everything stands after a last replug.
std::vector<Step> standsOnWay(const Sequence& way);

/// How much nearer, at most, the two parts come at any instant of the step when every joint between
/// them is off by its play, whichever way, mm: a joint carries what lies behind it off by its
/// travel and turns it by its tilt about a lever that is never longer than the links up to it and
/// the part's own reach. It makes no difference which of the two is thought to be carried: the one
/// with the shorter lever counts.
double playBound(const PlayedPair& pair, const Step& step);

/// The gap of the two with the play in the worst way that is known: at one configuration every
/// joint is moved and tilted so that the place on B goes straight for the place on A. Such a case
/// can be reached if nothing else is in the way; other cases may be worse. mm; 0: they touch or
/// cross.
/// @param onA_W, onB_W  Places near each other, as everything stands.
double playedGap(const PlayedPair& pair, const Configuration& standing, const Vector3d& onA_W,
                 const Vector3d& onB_W, double withinMm);

}  // namespace swingroom
