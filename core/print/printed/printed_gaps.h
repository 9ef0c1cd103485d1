#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/print/finding.h"
#include "core/print/joints/joint_play.h"
#include "core/print/subject.h"

namespace swingroom {

/// What can be said of a pair as printed.
enum class PrintedState {
  apart,     ///< Its surfaces, grown, keep away from each other at every instant.
  closes,    ///< Grown, they touch or overlap somewhere.
  contact,   ///< They touch by design; outside of that, grown, they keep away.
  notJudged  ///< Fixed to each other, allowed, or overlapping as modelled already.
};

/// The gap of two printed parts, over all ways. Figures in mm.
struct PrintedGap {
  PartId a, b;
  PrintedState state = PrintedState::notJudged;
  std::size_t way = 0;        ///< Of the subject's ways: where the least gap is.
  double instant = 0;         ///< Of that way.
  bool hangTogether = false;  ///< One by a joint on the other: its play ends where the two touch.
  double growthMm = 0;        ///< Of both surfaces together; the gap as modelled is larger by it.
  double scatterMm = 0;       ///< How much one print's gap differs from another's.
  /// lower <= gap <= upper, as printed; below 0: so much is missing. Of a pair in contact: nothing.
  double lowerMm = 0;
  std::optional<double> upperMm;  ///< None: farther than matters.
  /// The same with every joint between the two off by its play, the worst way at once.
  /// The lower bound holds for every such case (see `playedLeast`); the upper one was found in one.
  bool playIsKnown = true;  ///< Of every joint between the two; else the next say nothing.
  double playLowerMm = 0;   ///< 0: nothing is proven but that they may touch.
  std::optional<double> playUpperMm;  ///< 0: seen to touch. None: not looked for, or farther.

  bool operator==(const PrintedGap&) const = default;
};

struct PrintedGaps {
  std::vector<PrintedGap> pairs;  ///< All that have meshes, in file order.
  bool judged = false;            ///< There were results of the check to start from.
  std::size_t playKnown = 0,
              playUnknown = 0;  ///< Joints that move, by whether their play is known.

  bool operator==(const PrintedGaps&) const = default;
};

/// Gaps as printed. Growth: a surface that is grown by g everywhere is nearer to any other by g, as
/// long as they are apart, so that a bracket of the modelled gap gives one of the printed gap.
/// Faces that look inwards count with the larger of a process's two growths. Pairs that touch by
/// design are swept again, with the growth as what they need outside their contacts. Play: see
/// `playedLeast` and `playedGap`; as printed. A joint that nothing stops along its axis is taken to
/// stay there, a fixed one to be rigid.
PrintedGaps checkPrintedGaps(const PrintSubject& subject, const std::vector<JointPlay>& plays,
                             WorkMonitor& monitor);

void addPrintedFindings(const PrintedGaps& result, PrintFindings& findings);

/// How much nearer two surfaces come by growth, mm.
double growthBetween(const PrintSubject& subject, PartId a, PartId b);

}  // namespace swingroom
