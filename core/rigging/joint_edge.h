#pragma once

#include <optional>
#include <vector>

#include "core/rigging/axis_fit.h"
#include "core/rigging/facing.h"
#include "core/rigging/rig_suggestion.h"

namespace swingroom {

/// Signs that two parts hang on each other, whichever is the parent.
struct JointEdge {
  std::size_t a = 0, b = 0;
  /// Ways in which b hangs on a, best first. Without names; a slide between faces without a point.
  std::vector<JointChoice> choices;
  bool byPin = false;   ///< By a pin in a hole.
  bool atStop = false;  ///< Its slide goes one way only; else its sign says nothing.

  double strength() const { return choices.front().strength; }
  std::size_t other(std::size_t part) const { return part == a ? b : a; }
};

/// What the features and faces of every two near parts say, by part numbers.
std::vector<JointEdge> jointEdgesOf(const std::vector<RigPart>& parts, double requiredGapMm,
                                    unsigned threads, const WorkMonitor* monitor);

/// The choice with parent and child the other way round.
JointChoice turnedRound(JointChoice choice);

}  // namespace swingroom
