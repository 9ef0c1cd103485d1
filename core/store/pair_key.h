#pragma once

#include <vector>

#include "core/base/digest.h"
#include "core/motion/sequence.h"
#include "core/sweep/sweep.h"

namespace swingroom {

/// What a pair is asked: all that `checkPairAlone` is given but the surfaces. Nothing is null.
struct PairQuestion {
  const Assembly* assembly = nullptr;
  const std::vector<Mode>* modes = nullptr;
  const Sequence* sequence = nullptr;
  const SweepSettings* settings = nullptr;
  PartId a, b;
};

/// Names a pair's check by its content. Two checks with the same key have the same result, part and
/// joint ids aside.
struct PairKey {
  Digest digest{};
  /// Joints that can stand in the result, by id. Records name them by their position here, so that
  /// they are found again in a file in which joints have other numbers.
  std::vector<JointId> joints;
};

/// Everything that `checkPairAlone` reads for the pair, and nothing else: both surfaces, where the
/// parts stand at home, what the pair's rule says of this sequence, each step's and mode's joints
/// between the two. Where in the world the two stand counts only for contacts with a place.
/// Whoever lets the check read more has to add it here; tests/core/store/pair_key_test.cpp goes
/// through the fields.
/// @param digests  Of the parts' meshes, by PartId.
/// @throws std::invalid_argument if the mounts that hold form a ring, as `checkPair`.
PairKey keyOf(const PairQuestion& question, const std::vector<Digest>& digests);

}  // namespace swingroom
