#pragma once

#include <string>
#include <vector>

#include "core/assembly/assembly.h"

namespace swingroom {

enum class StepOrder {
  together,  ///< All joints evenly along one straight line of values.
  free,      ///< A hand moves them in any order: every combination of values counts.
  replug,    ///< A part is taken off one mount and put on another; only both ends are looked at.
};

/// From one configuration to another. Between them a hinge or slide runs evenly; a ball turns about one
/// fixed axis at an even rate, the short way.
struct Step {
  std::string name;
  StepOrder order = StepOrder::together;
  Configuration start;
  Configuration end;
};

/// How to get from one mode to another. Steps take equal shares of the instants 0 to 1; each starts where
/// the one before ends. At least one step.
struct Sequence {
  std::string name;
  ModeId from;
  ModeId to;
  std::vector<Step> steps;
};

/// A step and how far into it, 0 to 1.
struct StepInstant {
  std::size_t step = 0;
  double part = 0;
};

/// Which step holds `instant` (0 to 1); a joint between two steps belongs to the later one, 1 to the last.
StepInstant stepAt(const Sequence& sequence, double instant);

/// Value of `joint` `part` (0 to 1) of the way from `start` to `end`.
JointValue valueBetween(const Joint& joint, const JointValue& start, const JointValue& end, double part);

/// A ball's turn from `start` to `end` seen from the parent: one rotation vector, rad, of length at most pi.
Vector3d ballTurn(const JointValue& start, const JointValue& end);

/// Where everything stands `part` of the way through `step`. A replug stands at its start until 1.
Configuration configurationIn(const Assembly& assembly, const Step& step, double part);

Configuration configurationAt(const Assembly& assembly, const Sequence& sequence, double instant);

}  // namespace swingroom
