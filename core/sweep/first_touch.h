#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/motion/relative_motion.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// A piece of a motion, one after the other: `from` to `to` are shares of the whole, 0 to 1.
struct MotionStretch {
  RelativeMotion motion;
  double from = 0, to = 1;
};

struct FirstTouchQuestion {
  double neededMm = 1e-5;  ///< Nearer than this is a touch.
  double until = 1;        ///< What comes later does not matter.
  double within = 1e-5;    ///< Of the whole: a touch is told from what is free this closely.
  std::uint64_t budget = std::numeric_limits<std::uint64_t>::max();  ///< Of node tests.
};

struct FirstTouch {
  /// The gap is at least `neededMm` from the start up to here: proven.
  double freeTo = 0;
  /// Here, or before it, it is less (within a twentieth of `neededMm`); none: free up to `until`.
  std::optional<double> touchedAt;
  bool proven =
      true;  ///< It is less there indeed; else the budget ran out, or it is too close to tell.
  std::uint64_t nodeTests = 0;
};

/// Looks from the start of a motion for the first place at which two surfaces come nearer than
/// asked, and no farther. After a cancel what is returned means nothing.
FirstTouch firstTouch(const BoundingTree& treeA, const BoundingTree& treeB,
                      const std::vector<MotionStretch>& motion, const FirstTouchQuestion& question,
                      const WorkMonitor& monitor);

}  // namespace swingroom
