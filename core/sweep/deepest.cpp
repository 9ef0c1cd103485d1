#include "core/sweep/deepest.h"

#include <algorithm>
#include <cmath>

#include "core/proximity/depth.h"

namespace swingroom {
namespace {

constexpr int kSamples = 24;  ///< Spread evenly over each phase's share of the stretch.
constexpr int kClosingRounds = 24;

class DeepestSearch {
 public:
  explicit DeepestSearch(const OverlapProbe& probe) : probe_(probe) {}

  void lookThrough(const Phase& phase, double from, double to) {
    const double low = std::max(from, phase.from), high = std::min(to, phase.to);
    if (low > high || (low == high && phase.from < phase.to)) return;
    if (phase.motion->isConstant()) {
      depthAt(phase, low);
      return;
    }
    const double before = best_.depthMm;
    const double spacing = (high - low) / kSamples;
    for (int i = 0; i <= kSamples; ++i) depthAt(phase, std::min(high, low + i * spacing));
    if (best_.depthMm > before) {
      closeIn(phase, std::max(low, best_.instant - spacing), std::min(high, best_.instant + spacing));
    }
  }

  const Overlap& best() const { return best_; }

 private:
  double depthAt(const Phase& phase, double instant) {
    const double length = phase.to - phase.from;
    const double part = length > 0 ? (instant - phase.from) / length : 0;
    Overlap overlap = overlapAt(probe_, phase.motion->at(part).X_AB);
    overlap.instant = instant;
    // Plateaus: the first of equal instants counts.
    if (overlap.depthMm > best_.depthMm + 1e-6) best_ = overlap;
    return overlap.depthMm;
  }

  void closeIn(const Phase& phase, double low, double high) {
    const double ratio = (std::sqrt(5.0) - 1) / 2;
    double left = high - ratio * (high - low), right = low + ratio * (high - low);
    double atLeft = depthAt(phase, left), atRight = depthAt(phase, right);
    for (int i = 0; i < kClosingRounds; ++i) {
      if (atLeft >= atRight) {
        high = right, right = left, atRight = atLeft;
        atLeft = depthAt(phase, left = high - ratio * (high - low));
      } else {
        low = left, left = right, atLeft = atRight;
        atRight = depthAt(phase, right = low + ratio * (high - low));
      }
    }
  }

  const OverlapProbe& probe_;
  Overlap best_;
};

}  // namespace

Overlap overlapAt(const OverlapProbe& probe, const Pose& X_AB, double atLeastMm) {
  Overlap overlap;
  DepthSearch search;
  search.atLeastMm = atLeastMm;
  const Depth ofB = depthInside(probe.surfaceB->tree, *probe.solidA, X_AB, search);
  if (ofB.depthMm > 0) overlap = {ofB.depthMm, 0, ofB.point_S, ofB.nearest_S};
  search.atLeastMm = std::max(atLeastMm, ofB.depthMm);
  const Depth ofA = depthInside(probe.surfaceA->tree, *probe.solidB, X_AB.inverse(), search);
  if (ofA.depthMm > overlap.depthMm) overlap = {ofA.depthMm, 0, X_AB * ofA.point_S, X_AB * ofA.nearest_S};
  return overlap;
}

Overlap deepestOverlap(const OverlapProbe& probe, const std::vector<Phase>& phases, double from, double to) {
  DeepestSearch search(probe);
  for (const Phase& phase : phases) search.lookThrough(phase, from, to);
  Overlap best = search.best();
  if (best.depthMm == 0) best.instant = from;
  return best;
}

}  // namespace swingroom
