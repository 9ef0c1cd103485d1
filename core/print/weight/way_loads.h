#pragma once

#include <optional>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/subject.h"
#include "core/print/weight/hung_figure.h"

namespace swingroom {

/// The greatest load that gravity puts on one joint anywhere on the ways: N mm about its axis (a
/// ball: its centre), of a slide N along it. It hangs from what stands on the ground, as a figure
/// in a hand: the floor bears nothing.
struct WorstLoad {
  JointId joint;
  double lower = 0;     ///< Found at `instant`.
  double upper = 0;     ///< Proven for every instant: no load is greater.
  double offBy = 0;     ///< Both are as good as this, from the masses' brackets.
  std::size_t way = 0;  ///< Index into the subject's ways.
  double instant = 0;
  /// The same where nothing but the fit would hold it if the hand let go: between modes, off its
  /// clicks and not pressed against the end of its range. As found at samples, not proven.
  double unheld = 0;
  std::size_t unheldWay = 0;
  double unheldInstant = 0;
  /// The joint's load depends on a step whose joints move in any order: it was followed as if they
  /// moved together, and `upper` holds for that only.
  bool freeTogether = false;

  bool operator==(const WorstLoad&) const = default;
};

/// Of every joint with a parent that moves and is part of a mount that holds somewhere, in order.
/// Samples, refined where more is possible between them: a load changes no faster than what carries
/// it turns and what hangs on it moves.
std::vector<WorstLoad> worstLoads(const PrintSubject& subject, const std::vector<PartMass>& masses,
                                  const WorkMonitor& monitor);

}  // namespace swingroom
