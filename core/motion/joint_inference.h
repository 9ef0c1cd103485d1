#pragma once

#include <optional>
#include <vector>

#include "core/assembly/joint.h"
#include "core/motion/joint_evidence.h"
#include "core/motion/motion_groups.h"

namespace swingroom {

/// Why a part is thought to hang where it does, surest first.
enum class JointReason {
  held,        ///< A pin of one is in a hole of the other, or a ball in a socket, on the axis.
  near,        ///< They are near each other in both modes, at the axis or along the travel.
  nearOnce,    ///< Near each other in one mode only: a guess.
  nothing,     ///< Nothing near that it could hang on: it hangs on the ground, a guess.
  movesAlong,  ///< `fixed`: it does not move against its parent.
};

/// A joint that two modes suggest. At 0 everything stands as in the first mode.
struct InferredJoint {
  Joint joint;  ///< Ids are indices of the parts given. Zones are suggestions, from pins in holes.
  /// In the second mode, or where on the way it has moved most; rad or mm.
  JointValue value = JointValue::Zero();
  JointReason reason = JointReason::nothing;
  std::vector<PinInHole>
      pins;  ///< Along `joint.along`, from `joint.through`; `pinIsFirst`: the parent's.
  std::optional<BallInSocket> ball;  ///< Likewise; its centre is `joint.through`.
};

/// Parts whose surfaces come near each other and that no joint joins directly.
struct NearPair {
  PartId a, b;
  double gapMm = 0;
};

struct InferredMotion {
  MotionGroups groups;  ///< After taking legs apart that move alike by joints of their own.
  std::vector<InferredJoint> joints;  ///< As `toldInOrder`; a hinge before a slide on its axis.
  /// Of one group, nearer than the required gap: they never move against each other.
  std::vector<NearPair> touching;
  /// Pins in holes nearer than the required gap, outside the two parts of a joint: more pins of one
  /// joint, or a ring of joints. The gap is a side.
  std::vector<NearPair> otherPins;
};

/// Works out how parts hang on each other from where they are in two modes. Common motion makes
/// groups, the screw between two groups a joint, and a spanning tree of the best evidence the
/// parents; two placements alone cannot tell which parent is right, nor which way round a half turn
/// went. Angles are taken the short way.
/// @param requiredGapMm Below it near pairs are told.
/// Deterministic, whatever `threads`.
/// @throws std::invalid_argument if there is no part.
InferredMotion inferJoints(const std::vector<PartInTwoModes>& parts, double requiredGapMm,
                           unsigned threads);

}  // namespace swingroom
