#pragma once

#include <vector>

#include "core/motion/joint_evidence.h"
#include "core/motion/motion_groups.h"

namespace swingroom {

/// What two parts that move against each other show of a joint.
struct PairEvidence {
  std::size_t a = 0, b = 0;  ///< Part indices.
  Screw screw;               ///< Of b against a, both as in the first mode.
  JointEvidence evidence;
  double score = 0;  ///< Above 0.
};

/// The same asked the other way round: the line is the same, its direction turned.
PairEvidence turnedRound(const PairEvidence& pair);

/// Two parts of one group that are near each other.
struct GroupGap {
  std::size_t a = 0, b = 0;
  double gapMm = 0;
};

/// Everything measured between parts, for all that is decided afterwards.
struct EvidenceTable {
  std::vector<PairEvidence>
      pairs;                   ///< Between groups; groups in order, their parts as listed there.
  std::vector<GroupGap> gaps;  ///< Within groups; only those nearer than `kNearMm`.
};

/// Looks at all pairs of parts that come near each other in a mode.
EvidenceTable gatherEvidence(const std::vector<PartInTwoModes>& parts,
                             const std::vector<MotionGroup>& groups, unsigned threads);

}  // namespace swingroom
