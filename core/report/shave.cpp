#include "core/report/shave.h"

#include <cmath>

#include "core/report/findings.h"

namespace swingroom {
namespace {

/// What gap is wanted where the pair is worst, and which one it has.
struct Want {
  double gapMm = 0;
  const GapBracket* gap = nullptr;
  std::optional<JointId> fitOf;
};

/// Inside a joint's zones the fit counts, half of it a side.
Want wantOf(const Assembly& assembly, const PairResult& pair) {
  if (pair.joint && pair.joint->verdict == pair.verdict) {
    const Joint& joint = assembly.joint(pair.joint->joint);
    const bool outsideToo = pair.verdict == Verdict::tight && pair.gap.lowerMm < pair.requiredGapMm;
    if (joint.fitMm && *joint.fitMm > 0 && !outsideToo) {
      return {*joint.fitMm / 2, &pair.joint->gap, pair.joint->joint};
    }
  }
  return {pair.requiredGapMm, &pair.gap, std::nullopt};
}

/// At least this much, so rounded up to two decimals; 0.0001 mm more would not be missed.
double amountMm(const PairResult& pair, const Want& want) {
  const double missing = pair.verdict == Verdict::clash
                             ? rounded(deepestMm(pair)) + want.gapMm
                             : want.gapMm - roundedDown(want.gap->lowerMm);
  return std::ceil((missing - 1e-4) * 100) / 100;
}

}  // namespace

std::optional<Shave> shaveFor(const Assembly& assembly, const PairResult& pair,
                              DeepPointOn deepPointOn) {
  const bool deep = pair.verdict == Verdict::clash && deepestMm(pair) > 0;
  const Want want = wantOf(assembly, pair);
  const GapBracket& gap = deep ? pair.gap : *want.gap;
  if ((!deep && pair.verdict != Verdict::tight) || !gap.points_W || !gap.instant) {
    return std::nullopt;
  }
  const auto& [first, second] = *gap.points_W;
  const Vector3d apart = second - first;
  if (apart.norm() < 1e-9) return std::nullopt;
  const Vector3d direction = apart.normalized();
  // A gap: each point lies on its part, and material goes away from the other. An overlap: the
  // first point lies on the part that reaches in, the second on the other's boundary, and both are
  // cut towards each other.
  Cut ofA{pair.a, first, -direction}, ofB{pair.b, second, direction};
  if (deep) {
    if (deepPointOn == DeepPointOn::unknown) return std::nullopt;
    const bool onA = deepPointOn == DeepPointOn::a;
    ofA = {pair.a, onA ? first : second, onA ? direction : Vector3d(-direction)};
    ofB = {pair.b, onA ? second : first, onA ? Vector3d(-direction) : direction};
  }
  return Shave{amountMm(pair, want), want.gapMm, want.fitOf, *gap.instant, {ofA, ofB}};
}

}  // namespace swingroom
