#include "core/report/findings.h"

#include <algorithm>
#include <map>

namespace swingroom {
namespace {

bool isWorse(const PairResult& a, const PairResult& b) {
  if (a.verdict != b.verdict) return a.verdict < b.verdict;
  if (a.verdict == Verdict::clash) return deepestMm(a) > deepestMm(b);
  const double ofA = a.gap.lowerMm - a.requiredGapMm, ofB = b.gap.lowerMm - b.requiredGapMm;
  return ofA < ofB;
}

}  // namespace

double deepestMm(const PairResult& pair) {
  double deepest = 0;
  for (const Stretch& stretch : pair.stretches) {
    deepest = std::max(deepest, stretch.depthMm.value_or(0));
  }
  return deepest;
}

const PairResult& resultOf(const CheckReport& report, const Occurrence& where) {
  return report.results.at(where.way).pairs.at(where.pair);
}

std::vector<Finding> findingsOf(const CheckReport& report) {
  std::map<std::pair<PartId, PartId>, Finding> byPair;
  for (std::size_t w = 0; w < report.results.size(); ++w) {
    const auto& pairs = report.results[w].pairs;
    for (std::size_t p = 0; p < pairs.size(); ++p) {
      if (pairs[p].verdict >= Verdict::clear) continue;
      Finding& finding = byPair[{pairs[p].a, pairs[p].b}];
      finding.a = pairs[p].a;
      finding.b = pairs[p].b;
      finding.where.push_back({w, p});
    }
  }
  std::vector<Finding> findings;
  for (auto& [pair, finding] : byPair) {
    std::stable_sort(finding.where.begin(), finding.where.end(), [&](const auto& a, const auto& b) {
      return isWorse(resultOf(report, a), resultOf(report, b));
    });
    finding.verdict = resultOf(report, finding.where.front()).verdict;
    findings.push_back(std::move(finding));
  }
  std::stable_sort(findings.begin(), findings.end(), [&](const Finding& a, const Finding& b) {
    return isWorse(resultOf(report, a.where.front()), resultOf(report, b.where.front()));
  });
  return findings;
}

std::vector<Verdict> worstOfPairs(const CheckReport& report) {
  std::vector<Verdict> worst;
  for (const SequenceResult& result : report.results) {
    worst.resize(result.pairs.size(), Verdict::allowed);
    for (std::size_t p = 0; p < result.pairs.size(); ++p) {
      worst[p] = std::min(worst[p], result.pairs[p].verdict);
    }
  }
  return worst;
}

std::optional<Occurrence> tightestThatPasses(const CheckReport& report) {
  std::optional<Occurrence> tightest;
  double leastMm = 0;
  for (std::size_t w = 0; w < report.results.size(); ++w) {
    const auto& pairs = report.results[w].pairs;
    for (std::size_t p = 0; p < pairs.size(); ++p) {
      const PairResult& pair = pairs[p];
      // Parts that may touch (fixed to each other, or in contact) keep no gap.
      const bool keepsGap = pair.gap.upperMm && *pair.gap.upperMm >= pair.requiredGapMm - 1e-3;
      if (pair.verdict != Verdict::clear || !keepsGap) continue;
      if (tightest && *pair.gap.upperMm >= leastMm) continue;
      tightest = Occurrence{w, p};
      leastMm = *pair.gap.upperMm;
    }
  }
  return tightest;
}

bool isInJoint(const PairResult& pair) {
  return pair.verdict < Verdict::clear && pair.joint && pair.joint->verdict == pair.verdict &&
         pair.stretches.empty();
}

Configuration worstStanding(const Assembly& assembly, const Sequence& way, const PairResult& pair) {
  Configuration standing = configurationAt(assembly, way, worstInstant(pair));
  const GapBracket& gap = isInJoint(pair) ? pair.joint->gap : pair.gap;
  for (const JointStand& stand : gap.combination) standing.values[stand.joint.index] = stand.value;
  return standing;
}

double worstInstant(const PairResult& pair) {
  if (isInJoint(pair) && pair.joint->gap.instant) return *pair.joint->gap.instant;
  if (pair.gap.instant) return *pair.gap.instant;
  return pair.stretches.empty() ? 0 : pair.stretches.front().from;
}

}  // namespace swingroom
