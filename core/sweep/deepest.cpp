#include "core/sweep/deepest.h"

#include <algorithm>
#include <cmath>

#include "core/proximity/depth.h"

namespace swingroom {
namespace {

constexpr int kSamples = 16;  ///< Spread evenly over each phase's share of the stretch.
constexpr int kClosingRounds = 14;
constexpr double kSpreadMm = 0.05;   ///< Accuracy at the spread instants,
constexpr double kClosingMm = 0.01;  ///< while the best is closed in on,
constexpr double kFinalMm = 0.005;   ///< and at the instant that was found.
constexpr double kOfInterest =
    0.9;  ///< Depths under this share of the deepest so far need not be known.

class DeepestSearch {
 public:
  DeepestSearch(const OverlapProbe& probe, const DepthsOfInterest& interest)
      : probe_(probe), interest_(interest) {}

  bool ended() const { return best_.depthMm >= interest_.enoughMm; }

  void lookThrough(const Phase& phase, double from, double to) {
    const double low = std::max(from, phase.from), high = std::min(to, phase.to);
    if (low > high || (low == high && phase.from < phase.to)) return;
    if (phase.motion->isConstant()) {
      depthAt(phase, low, kFinalMm, interest_.aboveMm);
      return;
    }
    const double before = best_.depthMm;
    const double spacing = (high - low) / kSamples;
    for (int i = 0; i <= kSamples && !ended(); ++i)
      depthAt(phase, std::min(high, low + i * spacing), kSpreadMm);
    if (best_.depthMm > before && !ended()) {
      closeIn(phase, std::max(low, best_.instant - spacing),
              std::min(high, best_.instant + spacing));
    }
  }

  /// The deepest seen, measured once more and closely.
  Overlap best() const {
    if (best_.depthMm == 0) return best_;
    Overlap fine = overlapAt(probe_, X_AB_best_, best_.depthMm - kClosingMm, kFinalMm);
    fine.instant = best_.instant;
    return fine.depthMm > best_.depthMm ? fine : best_;
  }

 private:
  double depthAt(const Phase& phase, double instant, double accuracyMm, double aboveMm = 0) {
    const double length = phase.to - phase.from;
    const double part = length > 0 ? (instant - phase.from) / length : 0;
    const Pose X_AB = phase.motion->at(part).X_AB;
    Overlap overlap =
        overlapAt(probe_, X_AB, std::max(aboveMm, kOfInterest * best_.depthMm), accuracyMm);
    overlap.instant = instant;
    // Plateaus: the first of equal instants counts.
    if (overlap.depthMm > best_.depthMm + 1e-6) {
      best_ = overlap;
      X_AB_best_ = X_AB;
    }
    return overlap.depthMm;
  }

  void closeIn(const Phase& phase, double low, double high) {
    const double ratio = (std::sqrt(5.0) - 1) / 2;
    double left = high - ratio * (high - low), right = low + ratio * (high - low);
    double atLeft = depthAt(phase, left, kClosingMm), atRight = depthAt(phase, right, kClosingMm);
    for (int i = 0; i < kClosingRounds; ++i) {
      if (atLeft >= atRight) {
        high = right, right = left, atRight = atLeft;
        atLeft = depthAt(phase, left = high - ratio * (high - low), kClosingMm);
      } else {
        low = left, left = right, atLeft = atRight;
        atRight = depthAt(phase, right = low + ratio * (high - low), kClosingMm);
      }
    }
  }

  const OverlapProbe& probe_;
  const DepthsOfInterest& interest_;
  Overlap best_;
  Pose X_AB_best_ = Pose::Identity();
};

}  // namespace

Overlap overlapAt(const OverlapProbe& probe, const Pose& X_AB, double atLeastMm,
                  double accuracyMm) {
  Overlap overlap;
  DepthSearch search;
  search.atLeastMm = std::max(0.0, atLeastMm);
  search.accuracyMm = accuracyMm;
  const Depth ofB = depthInside(probe.surfaceB->tree, *probe.solidA, X_AB, search);
  if (ofB.depthMm > 0) overlap = {ofB.depthMm, 0, ofB.point_S, ofB.nearest_S};
  search.atLeastMm = std::max(search.atLeastMm, ofB.depthMm);
  const Depth ofA = depthInside(probe.surfaceA->tree, *probe.solidB, X_AB.inverse(), search);
  if (ofA.depthMm > overlap.depthMm)
    overlap = {ofA.depthMm, 0, X_AB * ofA.point_S, X_AB * ofA.nearest_S};
  return overlap;
}

Overlap deepestOverlap(const OverlapProbe& probe, const std::vector<Phase>& phases, double from,
                       double to, const DepthsOfInterest& interest) {
  DeepestSearch search(probe, interest);
  for (const Phase& phase : phases) {
    if (!search.ended()) search.lookThrough(phase, from, to);
  }
  Overlap best = search.best();
  if (best.depthMm == 0) best.instant = from;
  return best;
}

}  // namespace swingroom
