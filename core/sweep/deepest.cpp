#include "core/sweep/deepest.h"

#include <algorithm>
#include <cmath>
#include <deque>

#include "core/motion/travel.h"
#include "core/proximity/deepest_place.h"
#include "core/proximity/depth.h"

namespace swingroom {
namespace {

constexpr double kAccuracyMm = 0.005;
constexpr double kFineMm = 0.0005;
constexpr double kShareOfDepth = 0.01;
constexpr double kPlateauMm = 0.001;
constexpr std::size_t kMostQueries = 60'000;
constexpr std::size_t kShareQueries = 6'000;
constexpr std::size_t kFineQueries = 4'000;
constexpr std::size_t kRefiningQueries = 4'000;  ///< Of each side, at the instant found.
constexpr std::size_t kClimbingQueries = 1'500;
constexpr int kClimbingRounds = 4;
constexpr double kSamePose = 1e-10;
constexpr int kSideA = 0, kSideB = 1;  ///< Of the solid.

/// Spans of the phases, halved as they are asked for. A sees B move, and B sees A.
class PhaseSpans final : public PlacedSpans {
 public:
  /// @returns Its number, or none if the phase has no instant between `from` and `to`.
  std::optional<std::uint32_t> add(const Phase& phase, double from, double to) {
    const double low = std::max(from, phase.from), high = std::min(to, phase.to);
    if (low > high || (low == high && phase.from < phase.to)) return std::nullopt;
    const Pose X_AB = poseAt(phase, low);
    if (phase.motion->isConstant() && isKnown(X_AB)) return std::nullopt;
    return make(phase, low, high, X_AB, poseAt(phase, high));
  }

  const PlacedSpan& at(std::uint32_t span, int side) const override {
    return spans_[span].placed[side];
  }

  std::array<std::uint32_t, 2> halvesOf(std::uint32_t index) override {
    Span& span = spans_[index];
    if (span.halves) return *span.halves;
    const PlacedSpan& placed = span.placed[kSideA];
    const double middle = 0.5 * (placed.from + placed.to);
    const std::uint32_t before =
        make(*span.phase, placed.from, middle, placed.X_SF_from, placed.X_SF_middle);
    const std::uint32_t after =
        make(*span.phase, middle, placed.to, placed.X_SF_middle, placed.X_SF_to);
    span.halves = {before, after};
    return *span.halves;
  }

  double travelMm(std::uint32_t span, int side, const Vector3d& centre_S,
                  double radius) const override {
    return spans_[span].bounds[side]->travelMm(centre_S, radius);
  }

  double bendMm(std::uint32_t span, int side, const Vector3d& centre_S,
                double radius) const override {
    return spans_[span].bounds[side]->bendMm(centre_S, radius);
  }

 private:
  struct Span {
    const Phase* phase = nullptr;
    std::array<PlacedSpan, 2> placed;
    std::array<MotionAtInstant, 2> motion;
    std::array<std::optional<TravelBounds>, 2> bounds;
    std::optional<std::array<std::uint32_t, 2>> halves;
  };

  /// Whether B is seen standing like that at the end of an earlier phase.
  bool isKnown(const Pose& X_AB) const {
    return std::any_of(spans_.begin(), spans_.end(), [&](const Span& span) {
      return (span.placed[kSideA].X_SF_to.matrix() - X_AB.matrix()).cwiseAbs().maxCoeff() <
             kSamePose;
    });
  }

  static double shareOf(const Phase& phase, double instant) {
    const double length = phase.to - phase.from;
    return length > 0 ? (instant - phase.from) / length : 0;
  }

  static Pose poseAt(const Phase& phase, double instant) {
    return phase.motion->at(shareOf(phase, instant)).X_AB;
  }

  std::uint32_t make(const Phase& phase, double from, double to, const Pose& X_AB_from,
                     const Pose& X_AB_to) {
    Span& span = spans_.emplace_back();
    span.phase = &phase;
    span.motion[kSideA] = phase.motion->at(shareOf(phase, 0.5 * (from + to)));
    const bool still = phase.motion->isConstant() || from == to;
    const Pose& X_AB = span.motion[kSideA].X_AB;
    span.placed[kSideA] = {X_AB_from, X_AB, X_AB_to, from, to, still};
    span.placed[kSideB] = {X_AB_from.inverse(), X_AB.inverse(), X_AB_to.inverse(), from, to, still};
    if (!still) {
      span.motion[kSideB] = seenFromB(span.motion[kSideA]);
      const double halfWidth = 0.5 * (shareOf(phase, to) - shareOf(phase, from));
      for (const int side : {kSideA, kSideB})
        span.bounds[side].emplace(span.motion[side], halfWidth);
    }
    return static_cast<std::uint32_t>(spans_.size() - 1);
  }

  std::deque<Span> spans_;
};

/// Of what stands: whichever side reaches deeper into the other.
Overlap standingOverlap(const OverlapProbe& probe, const Pose& X_AB, DepthSearch search) {
  Overlap overlap;
  const Depth ofB = depthInside(probe.surfaceB->tree, *probe.solidA, X_AB, search);
  overlap.upperMm = ofB.upperMm;
  if (ofB.depthMm > 0) {
    overlap.depthMm = ofB.depthMm;
    overlap.point_A = ofB.point_S, overlap.nearest_A = ofB.nearest_S;
  }
  search.atLeastMm = std::max(search.atLeastMm, ofB.depthMm);
  const Depth ofA = depthInside(probe.surfaceA->tree, *probe.solidB, X_AB.inverse(), search);
  overlap.upperMm = std::max(overlap.upperMm, ofA.upperMm);
  if (ofA.depthMm > overlap.depthMm) {
    overlap.depthMm = ofA.depthMm;
    overlap.point_A = X_AB * ofA.point_S, overlap.nearest_A = X_AB * ofA.nearest_S;
  }
  return overlap;
}

/// Looks for a deeper place at the instant that was found.
void refine(Overlap& overlap, const OverlapProbe& probe, const Pose& X_AB) {
  DepthSearch search;
  search.atLeastMm = overlap.depthMm;
  search.accuracyMm = kAccuracyMm;
  search.mostQueries = kRefiningQueries;
  const Overlap there = standingOverlap(probe, X_AB, search);
  if (there.depthMm <= overlap.depthMm) return;
  overlap.depthMm = there.depthMm;
  overlap.point_A = there.point_A, overlap.nearest_A = there.nearest_A;
}

/// Where the search gave up: climbs on from what it found, by instants before and after.
void climb(Overlap& overlap, const OverlapProbe& probe, const std::vector<Phase>& phases,
           double from, double to) {
  double stepBy = (to - from) / 16;
  for (int round = 0; round < kClimbingRounds; ++round, stepBy /= 2) {
    for (const double by : {-stepBy, stepBy}) {
      const double instant = std::clamp(overlap.instant + by, from, to);
      for (const Phase& phase : phases) {
        if (instant < phase.from || instant > phase.to || phase.from == phase.to) continue;
        DepthSearch search;
        search.atLeastMm = overlap.depthMm + kPlateauMm;
        search.mostQueries = kClimbingQueries;
        const double share = (instant - phase.from) / (phase.to - phase.from);
        Overlap there = standingOverlap(probe, phase.motion->at(share).X_AB, search);
        if (there.depthMm <= search.atLeastMm) continue;
        there.instant = instant, there.upperMm = overlap.upperMm, there.queries = overlap.queries;
        overlap = there;
      }
    }
  }
}

}  // namespace

Overlap overlapAt(const OverlapProbe& probe, const Pose& X_AB, double atLeastMm,
                  double accuracyMm) {
  DepthSearch search;
  search.atLeastMm = std::max(0.0, atLeastMm);
  search.accuracyMm = accuracyMm;
  return standingOverlap(probe, X_AB, search);
}

Overlap deepestOverlap(const OverlapProbe& probe, const std::vector<Phase>& phases, double from,
                       double to, const DepthsOfInterest& interest) {
  PhaseSpans spans;
  std::vector<std::uint32_t> first;
  for (const Phase& phase : phases) {
    if (const auto span = spans.add(phase, from, to)) first.push_back(*span);
  }
  DeepestSearch search;
  search.monitor = probe.monitor;
  search.accuracyMm = kAccuracyMm;
  search.fineMm = kFineMm;
  search.atLeastMm = interest.aboveMm;
  search.mostQueries = kMostQueries;
  search.fineQueries = kFineQueries;
  search.shareOfDepth = kShareOfDepth;
  search.shareQueries = kShareQueries;
  search.plateauMm = kPlateauMm;
  if (std::isfinite(interest.enoughMm)) {
    search.enoughMm = interest.enoughMm;
    search.fineMm = kAccuracyMm;
  }
  const DeepestPlace place = deepestPlace({{&probe.surfaceB->tree, probe.solidA, kSideA},
                                           {&probe.surfaceA->tree, probe.solidB, kSideB}},
                                          spans, first, search);
  Overlap overlap;
  overlap.instant = from;
  overlap.upperMm = place.upperMm;
  overlap.queries = place.queries;
  if (place.depthMm == 0) return overlap;
  overlap.depthMm = place.depthMm;
  overlap.instant = place.instant;
  const Pose X_AS = place.side == kSideA ? Pose::Identity() : Pose(place.X_SF.inverse());
  overlap.point_A = X_AS * place.point_S;
  overlap.nearest_A = X_AS * place.nearest_S;
  const bool enough = search.enoughMm > 0 && place.depthMm >= search.enoughMm;
  if (!enough && place.upperMm - place.depthMm > kAccuracyMm) {
    refine(overlap, probe, place.side == kSideA ? place.X_SF : place.X_SF.inverse());
    const double wideMm = std::max(2 * kAccuracyMm, kShareOfDepth * overlap.depthMm);
    if (place.upperMm - overlap.depthMm > wideMm) climb(overlap, probe, phases, from, to);
  }
  return overlap;
}

}  // namespace swingroom
