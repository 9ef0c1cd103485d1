#pragma once

#include <vector>

#include "core/sweep/result.h"

namespace swingroom {

/// A pair's least gap and verdict in two checks of the same assembly with other stages in use.
struct GapChange {
  PartId a, b;
  double requiredGapMm = 0;
  Verdict before = Verdict::unproven, after = Verdict::unproven;
  GapBracket gapBefore, gapAfter;

  /// Proven to be another gap, or another verdict.
  bool isChanged() const;
  /// After less before, as far as both are known; negative: nearer now. None: both farther than
  /// matters.
  std::optional<double> growsMm() const;
};

/// Each pair that both checks have, over all their ways: the worst verdict and the least bracket.
/// Those that changed first, the ones that lost most before; then in file order.
/// @param before, after  By way; the same ways, and parts with the same ids.
std::vector<GapChange> gapChanges(const std::vector<SequenceResult>& before,
                                  const std::vector<SequenceResult>& after);

}  // namespace swingroom
