#include "core/stages/gap_change.h"

#include <gtest/gtest.h>

namespace swingroom {
namespace {

PairResult pairOf(std::size_t a, std::size_t b, Verdict verdict, double lowerMm, std::optional<double> upperMm) {
  PairResult pair;
  pair.a = PartId{a};
  pair.b = PartId{b};
  pair.verdict = verdict;
  pair.requiredGapMm = 0.3;
  pair.gap.lowerMm = lowerMm;
  pair.gap.upperMm = upperMm;
  return pair;
}

TEST(GapChange, TheWorstOfAllWaysBeforeAndAfterWhatLostMostFirst) {
  SequenceResult there, back;
  there.pairs = {pairOf(0, 1, Verdict::clear, 0.50, 0.51), pairOf(0, 2, Verdict::clear, 1.8, std::nullopt),
                 pairOf(1, 2, Verdict::clear, 0.40, 0.41)};
  back.pairs = {pairOf(0, 1, Verdict::clear, 0.46, 0.47), pairOf(0, 2, Verdict::clear, 1.8, std::nullopt),
                pairOf(1, 2, Verdict::clear, 0.60, 0.61)};
  SequenceResult thereNow = there, backNow = back;
  thereNow.pairs[0] = pairOf(0, 1, Verdict::tight, 0.21, 0.22);
  backNow.pairs[2] = pairOf(1, 2, Verdict::clash, 0, 0.0);
  const auto changes = gapChanges({there, back}, {thereNow, backNow});
  ASSERT_EQ(changes.size(), 3u);
  EXPECT_EQ(changes[0].b, PartId{2});  // Lost 0.405.
  EXPECT_EQ(changes[0].after, Verdict::clash);
  EXPECT_NEAR(*changes[0].growsMm(), -0.405, 1e-12);
  EXPECT_EQ(changes[1].before, Verdict::clear);
  EXPECT_EQ(changes[1].after, Verdict::tight);
  EXPECT_EQ(changes[1].gapBefore.upperMm, 0.47);
  EXPECT_EQ(changes[1].gapBefore.lowerMm, 0.46);
  EXPECT_NEAR(*changes[1].growsMm(), -0.25, 1e-12);
  EXPECT_FALSE(changes[2].isChanged());
  EXPECT_FALSE(changes[2].growsMm());
}

TEST(GapChange, BracketsThatOverlapAreNoChange) {
  SequenceResult before, after;
  before.pairs = {pairOf(0, 1, Verdict::clear, 0.500, 0.508)};
  after.pairs = {pairOf(0, 1, Verdict::clear, 0.504, 0.510)};
  EXPECT_FALSE(gapChanges({before}, {after})[0].isChanged());
  after.pairs = {pairOf(0, 1, Verdict::clear, 0.509, 0.515)};
  EXPECT_TRUE(gapChanges({before}, {after})[0].isChanged());
}

}  // namespace
}  // namespace swingroom
