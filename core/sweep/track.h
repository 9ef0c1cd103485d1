#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/base/work_monitor.h"
#include "core/motion/relative_motion.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// What is known of a pair of surfaces over a piece of the sequence.
enum class Standing {
  clear,     ///< Proven at or above what is needed, at every instant.
  tight,     ///< Below what is needed, and proven not to touch.
  clash,     ///< Touches or crosses.
  unproven,  ///< The budget ran out.
};

/// A piece of the sequence, in instants 0 to 1.
struct TrackPiece {
  double from = 0;
  double to = 0;
  Standing standing = Standing::unproven;
};

/// A piece of the sequence, in instants, in which two parts move against each other as `motion` says: a step,
/// or the standing at a replug's end (which may have no length).
struct Phase {
  const RelativeMotion* motion = nullptr;
  double from = 0;      ///< Instants of the sequence.
  double to = 0;
  /// Its freedoms, more than one, are moved by hand in any order. `followTrack` lets them go together.
  bool anyOrder = false;
};

/// A bracket of the least gap: lower <= true least gap <= upper, over every instant that was looked at.
struct LeastGap {
  double lowerMm = 0;
  /// None: the gap is nowhere below what matters; `lowerMm` says how far it is proven.
  std::optional<double> upperMm;
  double instant = 0;  ///< Where the upper bound was found, with its two points in A's frame.
  Vector3d onA_A = Vector3d::Zero();
  Vector3d onB_A = Vector3d::Zero();
  /// In a step of any order: how far each freedom is there, 0 to 1; `instant` only names the step.
  std::vector<double> parts;
};

struct TrackQuestion {
  /// The gap that is needed; 0: it must only not touch.
  double neededMm = 0;
  /// Where the gap matters it is bracketed to `resolutionMm`: below `mattersBelowMm`. 0: not asked.
  double mattersBelowMm = 0;
  double resolutionMm = 0.01;
  /// Most node tests before the rest is left unproven.
  std::uint64_t budget = 400'000'000;
};

struct Track {
  std::vector<TrackPiece> pieces;  ///< In order; neighbours differ in standing or do not touch.
  LeastGap least;
  std::uint64_t nodeTests = 0;
  bool cancelled = false;
};

/// A gap this little under the needed one counts as meeting it, mm: part files carry single precision, and
/// no printer holds a tenth of a micrometre.
constexpr double kSlackMm = 1e-4;

/// Follows two surfaces through phases of a sequence. Intervals of time are halved until each is proven
/// clear, tight or clashing; ends of stretches are within 1e-4 of the sequence; no interval straddles a
/// phase's end. Piyavskii's and Shubert's minimisation closes the bracket of the least gap.
/// @param phases  In order, all between the same two parts; others of the sequence are not asked about.
/// Inside a clash, stretches without contact shorter than 1/512 of a phase may be passed over.
Track followTrack(const BoundingTree& treeA, const BoundingTree& treeB,
                  const std::vector<Phase>& phases, const TrackQuestion& question, const WorkMonitor& monitor);

}  // namespace swingroom
