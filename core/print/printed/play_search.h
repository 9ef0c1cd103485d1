#pragma once

#include <optional>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/printed/play_bound.h"
#include "core/sweep/plan.h"

namespace swingroom {

/// The least that play leaves of a pair's gap on one way, mm.
struct PlayedLeast {
  /// The gap with all joints off by their play, whichever ways, is at least this at every instant;
  /// below 0: they may touch. Never more than the range's `farMm`.
  double lowerMm = 0;
  /// Where: of the way, and the two places as everything stands without play. None: nowhere below
  /// `farMm`.
  std::optional<double> instant;
  Vector3d onA_W = Vector3d::Zero(), onB_W = Vector3d::Zero();
};

/// Between what gaps with play are told apart, mm.
struct PlayRange {
  double neededMm = 0;  ///< Below it, it makes no difference how far.
  double farMm = 0;     ///< Nothing is asked beyond it.
};

/// The sweep with play as motion, of the surfaces outside joint zones: pieces of both surfaces and
/// of time are halved, those first that play may bring nearest, until one is known or the budget
/// ends (the bound then holds, and is lower than it could be). None: cancelled, or a way with steps
/// of any order, which is not looked at.
std::optional<PlayedLeast> playedLeast(const PlayedPair& pair, const Sequence& way,
                                       const PlayRange& range, const WorkMonitor& monitor);

}  // namespace swingroom
