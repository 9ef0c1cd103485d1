#include "core/sweep/gap_curve.h"

#include <algorithm>
#include <map>
#include <optional>
#include <stdexcept>

#include "core/sweep/deepest.h"
#include "core/sweep/interval_gap.h"
#include "core/sweep/plan.h"

namespace swingroom {
namespace {

constexpr double kTouchMm = 1e-6;  ///< Nearer than this is a touch, as for the check.

class CurveSampler {
 public:
  CurveSampler(const PartGeometry& a, const PartGeometry& b, const PairPlan& plan,
               const GapCurveQuestion& question)
      : a_(a), b_(b), plan_(plan), question_(question), nearest_(plan.tracks.size()) {}

  GapSample at(double instant) {
    const Phase& phase = phaseAt(instant);
    if (!phase.motion->isConstant()) return {instant, measure(phase, instant)};
    const auto [known, isNew] = standing_.try_emplace(phase.motion, 0.0);
    if (isNew) known->second = measure(phase, instant);
    return {instant, known->second};
  }

 private:
  /// Where the two surfaces of a track were nearest when last looked at: an upper bound for the
  /// next look.
  struct Nearest {
    Vector3d onA_A, onB_B;
  };

  double measure(const Phase& phase, double instant) {
    const double length = phase.to - phase.from;
    const double part = length > 0 ? (instant - phase.from) / length : 0;
    const Pose X_AB = phase.motion->at(std::clamp(part, 0.0, 1.0)).X_AB;
    double gapMm = question_.capMm;
    for (std::size_t t = 0; t < plan_.tracks.size(); ++t) {
      if (covers(plan_.tracks[t], phase)) gapMm = std::min(gapMm, gapOf(t, X_AB));
    }
    if (gapMm > 0 && question_.depthsToo && contained(X_AB)) gapMm = -depthOfWhole(X_AB);
    return gapMm;
  }

  /// The later of two that meet, so that a replug's end is seen at its instant.
  const Phase& phaseAt(double instant) const {
    std::size_t found = 0;
    for (std::size_t i = 0; i < plan_.phases.size(); ++i) {
      if (plan_.phases[i].from <= instant) found = i;
    }
    return plan_.phases[found];
  }

  static bool covers(const PlannedTrack& track, const Phase& phase) {
    return std::any_of(track.phases.begin(), track.phases.end(),
                       [&](const Phase& own) { return own.motion == phase.motion; });
  }

  double gapOf(std::size_t index, const Pose& X_AB) {
    const PlannedTrack& track = plan_.tracks[index];
    const bool zone = track.role == TrackRole::zone || track.role == TrackRole::zoneRim;
    const double gapMm = distance(index, X_AB, zone ? 2 * kTouchMm : question_.capMm);
    if (gapMm > kTouchMm) return zone ? question_.capMm : gapMm;
    if (zone && !question_.depthsToo) return question_.capMm;
    const double depthMm = depthOf({track.a.get(), track.b.get(), &a_.solid, &b_.solid, question_.monitor}, X_AB);
    const bool excused = zone && track.excuse.everywhere && depthMm <= track.excuse.depthMm;
    return excused ? question_.capMm : -depthMm;
  }

  /// Of the track's surfaces, if below `mostMm`, else that.
  double distance(std::size_t index, const Pose& X_AB, double mostMm) {
    const PlannedTrack& track = plan_.tracks[index];
    std::optional<Nearest>& last = nearest_[index];
    double belowMm = mostMm;
    if (last) belowMm = std::min(mostMm, (last->onA_A - X_AB * last->onB_B).norm() + kTouchMm);
    const IntervalGap gap = intervalGap(track.a->tree, track.b->tree, {X_AB, {}}, 0, {0, belowMm});
    if (gap.found) last = Nearest{gap.onA_A, X_AB.inverse() * gap.onB_A};
    return gap.middleMm;
  }

  double depthOf(const OverlapProbe& probe, const Pose& X_AB) const {
    if (!question_.depthsToo || !probe.canMeasure()) return 0;
    return overlapAt(probe, X_AB, 0, question_.depthAccuracyMm).depthMm;
  }

  double depthOfWhole(const Pose& X_AB) const {
    return depthOf({a_.surface.get(), b_.surface.get(), &a_.solid, &b_.solid, question_.monitor},
                   X_AB);
  }

  /// One wholly inside the other; surfaces that meet are their tracks' matter.
  bool contained(const Pose& X_AB) const {
    const bool inside =
        anyInside(b_.solid, a_.solid, X_AB) || anyInside(a_.solid, b_.solid, X_AB.inverse());
    if (!inside) return false;
    const auto& treeA = a_.surface->tree;
    return intervalGap(treeA, b_.surface->tree, {X_AB, {}}, 0, {0, 2 * kTouchMm}).middleMm >
           kTouchMm;
  }

  static bool anyInside(const Solid& inner, const Solid& outer, const Pose& X_OuterInner) {
    const auto& corners = inner.shellCorners();
    return std::any_of(corners.begin(), corners.end(), [&](const Vector3d& corner) {
      return outer.contains(X_OuterInner * corner);
    });
  }

  const PartGeometry& a_;
  const PartGeometry& b_;
  const PairPlan& plan_;
  const GapCurveQuestion& question_;
  std::vector<std::optional<Nearest>> nearest_;       ///< By track.
  std::map<const RelativeMotion*, double> standing_;  ///< Steps in which the pair stands still.
};

}  // namespace

std::vector<GapSample> gapCurve(const Assembly& assembly, const Sequence& sequence,
                                const AssemblyGeometry& geometry, PartId a, PartId b,
                                const GapCurveQuestion& question) {
  if (!geometry.at(a.index) || !geometry.at(b.index)) {
    throw std::invalid_argument("gapCurve: a part has no mesh");
  }
  const PairPlan plan = planPair(assembly, sequence, geometry, a, b, question.resolutionMm);
  CurveSampler sampler(*geometry[a.index], *geometry[b.index], plan, question);
  std::vector<GapSample> samples;
  samples.reserve(question.instants.size());
  for (const double instant : question.instants) {
    if (isCancelled(question.monitor)) break;
    samples.push_back(sampler.at(instant));
  }
  return samples;
}

}  // namespace swingroom
