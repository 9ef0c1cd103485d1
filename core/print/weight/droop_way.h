#pragma once

#include <optional>
#include <utility>

#include "core/base/work_monitor.h"
#include "core/print/weight/hung_figure.h"
#include "core/sweep/standing_gaps.h"

namespace swingroom {

/// What gives way by less is hardly seen: 1 mm at the end of a limb of 30 mm.
constexpr double kDroopSeenRad = radFromDeg(2), kDroopSeenMm = 0.5;

/// How far a joint that nothing holds goes by its weight.
struct DroopWay {
  double by = 0;  ///< rad or mm; infinite: a slide without an end.
  /// What ends it, if it is not that it hangs freely or its range ends: parts that meet (proven to
  /// be free up to there), or the floor.
  std::optional<std::pair<PartId, PartId>> meets;
  bool meetsFloor = false;
  bool toRange = false;  ///< The end of its range.

  bool operator==(const DroopWay&) const = default;
};

struct DroopQuestion {
  const Assembly* assembly = nullptr;
  const StandingGaps* gaps = nullptr;
  const HungFigure* figure = nullptr;
  const Configuration* standing = nullptr;
  std::optional<double> floorMm;  ///< Along up; none: it is in a hand.
  Vector3d up_W = Vector3d::UnitZ();
};

/// @param hung  One of the figure's joints, with a load that is not zero. A ball turns about its
///     load. All other joints stand.
DroopWay droopWay(const DroopQuestion& question, const HungJoint& hung, const WorkMonitor& monitor);

}  // namespace swingroom
