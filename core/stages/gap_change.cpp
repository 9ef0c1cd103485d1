#include "core/stages/gap_change.h"

#include <algorithm>
#include <map>
#include <optional>

namespace swingroom {
namespace {

struct Worst {
  Verdict verdict = Verdict::allowed;
  GapBracket gap;
  double requiredGapMm = 0;
  bool seen = false;
};

bool isLess(const GapBracket& a, const GapBracket& b) {
  if (a.upperMm && b.upperMm) return *a.upperMm < *b.upperMm;
  if (a.upperMm || b.upperMm) return a.upperMm.has_value();
  return a.lowerMm < b.lowerMm;
}

using WorstOfPairs = std::map<std::pair<PartId, PartId>, Worst>;

WorstOfPairs worstOf(const std::vector<SequenceResult>& ways) {
  WorstOfPairs worst;
  for (const SequenceResult& way : ways) {
    for (const PairResult& pair : way.pairs) {
      Worst& known = worst[{pair.a, pair.b}];
      known.verdict = std::min(known.verdict, pair.verdict);
      known.requiredGapMm = pair.requiredGapMm;
      const double lowerMm = known.seen ? std::min(known.gap.lowerMm, pair.gap.lowerMm) : pair.gap.lowerMm;
      if (!known.seen || isLess(pair.gap, known.gap)) known.gap = pair.gap;
      known.gap.lowerMm = lowerMm;  // Of the way with the least upper bound it may be higher.
      known.seen = true;
    }
  }
  return worst;
}

}  // namespace

bool GapChange::isChanged() const {
  if (before != after) return true;
  const auto apart = [](const GapBracket& less, const GapBracket& more) {
    return less.upperMm && *less.upperMm < more.lowerMm;
  };
  return apart(gapBefore, gapAfter) || apart(gapAfter, gapBefore);
}

std::optional<double> GapChange::growsMm() const {
  if (!gapBefore.upperMm && !gapAfter.upperMm) return std::nullopt;
  const auto figure = [](const GapBracket& gap) {
    return gap.upperMm ? (gap.lowerMm + *gap.upperMm) / 2 : gap.lowerMm;
  };
  return figure(gapAfter) - figure(gapBefore);
}

std::vector<GapChange> gapChanges(const std::vector<SequenceResult>& before,
                                  const std::vector<SequenceResult>& after) {
  const WorstOfPairs worstBefore = worstOf(before), worstAfter = worstOf(after);
  std::vector<GapChange> changes;
  for (const auto& [pair, was] : worstBefore) {
    const auto is = worstAfter.find(pair);
    if (is == worstAfter.end()) continue;
    changes.push_back({pair.first, pair.second, is->second.requiredGapMm, was.verdict,
                       is->second.verdict, was.gap, is->second.gap});
  }
  std::stable_sort(changes.begin(), changes.end(), [](const GapChange& x, const GapChange& y) {
    if (x.isChanged() != y.isChanged()) return x.isChanged();
    return x.isChanged() && x.growsMm().value_or(0) < y.growsMm().value_or(0);
  });
  return changes;
}

}  // namespace swingroom
