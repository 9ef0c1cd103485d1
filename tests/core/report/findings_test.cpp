// Which findings come first, and which are put under one cause.
#include "core/report/findings.h"

#include <gtest/gtest.h>

#include "tests/core/report/report_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

/// Parts in a row, far apart; the results are made by hand.
Mechanism row(int parts) {
  Mechanism mechanism;
  for (int i = 0; i < parts; ++i) {
    mechanism.addPart("part " + std::to_string(i), box({10.0 * i, 0, 0}, {10.0 * i + 1, 1, 1}));
  }
  return mechanism;
}

PairResult pairOf(std::size_t a, std::size_t b, Verdict verdict, double amountMm) {
  PairResult pair;
  pair.a = PartId{a};
  pair.b = PartId{b};
  pair.verdict = verdict;
  pair.requiredGapMm = 0.3;
  if (verdict == Verdict::clash) {
    pair.gap = {0, 0.0, 0.5, std::nullopt, {}};
    pair.stretches = {{Verdict::clash, 0.4, 0.6, amountMm, 0.5, std::nullopt, std::nullopt}};
  } else {
    pair.gap = {amountMm, amountMm, 0.5, std::nullopt, {}};
  }
  return pair;
}

ReportCase caseOf(const Mechanism& mechanism, const std::vector<std::vector<PairResult>>& ways) {
  std::vector<SequenceResult> results;
  for (const auto& pairs : ways) results.push_back({"way", ModeId{0}, ModeId{1}, pairs});
  return {mechanism, results};
}

TEST(Findings, DeeperClashesComeFirstThenSmallerGapsAndAPairOfTwoWaysIsOneFinding) {
  const ReportCase example =
      caseOf(row(3), {{pairOf(0, 1, Verdict::tight, 0.2), pairOf(0, 2, Verdict::clash, 1),
                       pairOf(1, 2, Verdict::clear, 1)},
                      {pairOf(0, 1, Verdict::clash, 2), pairOf(0, 2, Verdict::clear, 1),
                       pairOf(1, 2, Verdict::tight, 0.1)}});
  const auto findings = findingsOf(example.report);
  ASSERT_EQ(findings.size(), 3u);
  EXPECT_EQ(findings[0].b, PartId{1});
  EXPECT_EQ(findings[0].verdict, Verdict::clash);
  ASSERT_EQ(findings[0].where.size(), 2u);
  EXPECT_EQ(findings[0].where[0].way, 1u);
  EXPECT_EQ(findings[1].b, PartId{2});
  EXPECT_EQ(findings[2].verdict, Verdict::tight);
  EXPECT_EQ(worstOfPairs(example.report),
            (std::vector{Verdict::clash, Verdict::clash, Verdict::tight}));
}

TEST(Findings, TightestThatPassesKeepsAGap) {
  PairResult touching = pairOf(0, 1, Verdict::clear, 0);  // Fixed to each other.
  const ReportCase example = caseOf(
      row(3), {{touching, pairOf(0, 2, Verdict::clear, 0.5), pairOf(1, 2, Verdict::clear, 0.4)}});
  const auto tightest = tightestThatPasses(example.report);
  ASSERT_TRUE(tightest);
  EXPECT_EQ(tightest->pair, 2u);
}

std::vector<Cause> causes(const ReportCase& example) {
  return causesOf(example.report, findingsOf(example.report));
}

TEST(Causes, PartThatClashesWithMostOthersIsLikelyMisplaced) {
  const ReportCase example =
      caseOf(row(5), {{pairOf(0, 2, Verdict::clash, 3), pairOf(1, 2, Verdict::clash, 2),
                       pairOf(2, 3, Verdict::clash, 1), pairOf(3, 4, Verdict::tight, 0.1)}});
  const auto found = causes(example);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].findings, (std::vector<std::size_t>{0, 1, 2}));
  EXPECT_NE(found[0].sentence.find("part 2 clashes with 3 of 4 other parts"), std::string::npos);
  EXPECT_NE(found[0].sentence.find("likely"), std::string::npos);
  EXPECT_TRUE(found[1].sentence.empty());
}

TEST(Causes, JointWithOverlapAndNoZoneIsNamedAndOneWithAZoneIsNot) {
  Mechanism mechanism = row(2);
  const JointId hinge = mechanism.addHinge(PartId{1}, PartId{0}, {5, 0, 0}, Vector3d::UnitZ());
  const std::vector<std::vector<PairResult>> results = {{pairOf(0, 1, Verdict::clash, 1)}};
  EXPECT_NE(causes(caseOf(mechanism, results)).at(0).sentence.find("no zone"), std::string::npos);
  mechanism.joint(hinge).zones.push_back({2, -1, 1});
  EXPECT_TRUE(causes(caseOf(mechanism, results)).at(0).sentence.empty());
}

TEST(Causes, ClashesThatOneJointBringsAboutAreTogether) {
  Mechanism mechanism = row(5);
  const JointId hinge = mechanism.addHinge(PartId{4}, {}, {5, 0, 0}, Vector3d::UnitZ());
  PairResult first = pairOf(0, 1, Verdict::clash, 1), second = pairOf(2, 3, Verdict::clash, 2);
  first.stretches[0].mover = second.stretches[0].mover = hinge;
  const auto found = causes(caseOf(mechanism, {{first, second}}));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].findings.size(), 2u);
  EXPECT_NE(found[0].sentence.find("hinge"), std::string::npos);
}

TEST(Causes, EveryFindingIsUnderExactlyOneCause) {
  std::vector<PairResult> pairs;
  for (std::size_t a = 0; a < 6; ++a) {
    for (std::size_t b = a + 1; b < 6; ++b) {
      pairs.push_back(pairOf(a, b, (a + b) % 3 == 0 ? Verdict::tight : Verdict::clash,
                             0.1 + 0.01 * static_cast<double>(a * b)));
    }
  }
  const ReportCase example = caseOf(row(6), {pairs});
  std::vector<int> seen(findingsOf(example.report).size(), 0);
  for (const Cause& cause : causes(example)) {
    for (const std::size_t finding : cause.findings) ++seen.at(finding);
  }
  EXPECT_EQ(seen, std::vector<int>(seen.size(), 1));
}

}  // namespace
}  // namespace swingroom
