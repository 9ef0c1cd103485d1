#include "core/sweep/mover.h"

#include <limits>

#include "core/sweep/interval_gap.h"

namespace swingroom {
namespace {

std::optional<JointId> approaching(const MotionAtInstant& motion, const IntervalGap& gap) {
  const Vector3d direction = (gap.onB_A - gap.onA_A).normalized();
  std::optional<JointId> mover;
  double fastest = 0;
  for (const MovingAxis& axis : motion.axes) {
    const Vector3d velocity = axis.turnRateRad * axis.direction.cross(gap.onB_A - axis.point) +
                              axis.slideRateMm * axis.direction;
    const double approach = -velocity.dot(direction);
    if (approach <= fastest) continue;
    fastest = approach;
    mover = axis.joint;
  }
  return mover;
}

}  // namespace

std::optional<JointId> moverAt(const BoundingTree& treeA, const BoundingTree& treeB, const std::vector<Phase>& phases,
                               double instant) {
  for (const Phase& phase : phases) {
    if (instant <= phase.from || instant > phase.to || phase.motion->isConstant()) continue;
    const double length = phase.to - phase.from;
    // The stretch's end is known to 1e-4 only: step back until the surfaces are apart.
    for (const double back : {1e-5, 5e-5, 2e-4, 1e-3}) {
      const double part = (instant - back - phase.from) / length;
      if (part < 0) break;
      const MotionAtInstant motion = phase.motion->at(part);
      const IntervalGap gap = intervalGap(treeA, treeB, motion, 0, {0, std::numeric_limits<double>::max()});
      if (gap.middleMm > 1e-6) return approaching(motion, gap);
    }
  }
  return std::nullopt;
}

}  // namespace swingroom
