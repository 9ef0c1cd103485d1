#include "core/measure/pair_curve.h"

#include <algorithm>
#include <limits>

#include "core/report/findings.h"
#include "core/report/words.h"
#include "core/sweep/plan.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

bool inClash(const PairResult& pair, double instant) {
  return std::any_of(pair.stretches.begin(), pair.stretches.end(), [&](const Stretch& stretch) {
    return stretch.verdict == Verdict::clash && stretch.from < instant && instant < stretch.to;
  });
}

/// Evenly over each step, with every step's ends, and the instants that the result names; in a
/// clash fewer.
std::vector<double> instantsFor(const Sequence& way, const PairResult& pair, std::size_t wanted,
                                std::size_t depths) {
  const std::size_t steps = way.steps.size();
  const std::size_t each = (wanted + steps - 1) / steps;
  const std::size_t all = each * steps;
  const auto instantOf = [&](std::size_t i) {
    return static_cast<double>(i) / static_cast<double>(all);
  };
  std::size_t clashing = 0;
  for (std::size_t i = 0; i <= all; ++i) clashing += inClash(pair, instantOf(i));
  const std::size_t stride = std::max<std::size_t>(1, (clashing + depths - 1) / depths);
  std::vector<double> instants;
  for (std::size_t i = 0; i <= all; ++i) {
    if (i % stride == 0 || !inClash(pair, instantOf(i))) instants.push_back(instantOf(i));
  }
  if (pair.gap.instant) instants.push_back(*pair.gap.instant);
  for (const Stretch& stretch : pair.stretches) {
    instants.insert(instants.end(), {stretch.from, stretch.to});
    if (stretch.deepestAt) instants.push_back(*stretch.deepestAt);
  }
  std::sort(instants.begin(), instants.end());
  instants.erase(std::unique(instants.begin(), instants.end()), instants.end());
  return instants;
}

/// Where the check has measured closely, the curve goes through its figures.
void putResultIn(const PairResult& pair, std::vector<GapSample>& curve) {
  for (GapSample& sample : curve) {
    for (const Stretch& stretch : pair.stretches) {
      if (stretch.depthMm && stretch.deepestAt == sample.instant) sample.gapMm = -*stretch.depthMm;
    }
  }
}

}  // namespace

DeepPointOn deepPointOf(const CheckedPair& checked) {
  const PairResult& pair = *checked.result;
  if (pair.verdict != Verdict::clash || !pair.gap.points_W || !pair.gap.instant)
    return DeepPointOn::unknown;
  const Assembly& assembly = *checked.assembly;
  const auto poses = posesOf(assembly, worstStanding(assembly, *checked.way, pair));
  const auto distance = [&](PartId part) {
    const Vector3d p = poses[part.index].inverse() * (*pair.gap.points_W)[0];
    const auto nearest = closestPoint((*checked.geometry)[part.index]->surface->tree, p);
    return nearest ? nearest->distanceMm : std::numeric_limits<double>::infinity();
  };
  return distance(pair.a) <= distance(pair.b) ? DeepPointOn::a : DeepPointOn::b;
}

std::vector<GapSample> measureCurve(const CheckedPair& checked, const CurveDetail& detail,
                                    const WorkMonitor* monitor) {
  const PairResult& pair = *checked.result;
  const bool near = pair.gap.upperMm || !pair.stretches.empty();
  if (!near || words::standsStill(*checked.way)) return {};
  const std::size_t most = detail.depths > 0 ? detail.depths : detail.samples + 1;
  GapCurveQuestion question;
  question.instants = instantsFor(*checked.way, pair, detail.samples, most);
  question.capMm = pair.requiredGapMm + kMattersAboveRequiredMm;
  question.resolutionMm = checked.resolutionMm;
  question.depthsToo = detail.depths > 0 && deepestMm(pair) > 0;
  question.depthAccuracyMm =
      std::max(0.02, 0.06 * deepestMm(pair));  // Under two pixels of the drawing.
  question.monitor = monitor;
  auto curve =
      gapCurve(*checked.assembly, *checked.way, *checked.geometry, pair.a, pair.b, question);
  if (detail.depths > 0) putResultIn(pair, curve);
  return curve;
}

}  // namespace swingroom
