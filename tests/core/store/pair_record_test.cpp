#include "core/store/pair_record.h"

#include <gtest/gtest.h>

#include <limits>
#include <random>

namespace swingroom {
namespace {

/// Every field differs from what a new result holds.
PairResult fullResult() {
  PairResult result;
  result.a = PartId{3};
  result.b = PartId{5};
  result.verdict = Verdict::tight;
  result.requiredGapMm = 0.3;
  result.gap = {0.1, 0.11, 0.25, std::array{Vector3d(1, -0.0, 3), Vector3d(1, 2, 3.1)}};
  result.modes = {{ModeId{0}, 1.8, std::nullopt}, {ModeId{1}, 0.5, 0.6}};
  result.joint =
      JointResult{JointId{7}, Verdict::loose, {0, 0.2, std::nullopt, std::nullopt}, 12.5};
  Stretch clash{Verdict::clash, 0.1, 0.2, 0.05, 0.15, Vector3d(4, 5, 6), JointId{9}};
  result.stretches = {clash, {Verdict::unproven, 0.5, 1, {}, {}, {}, {}}};
  result.insideJudged = false;
  result.looseContacts = {{ModeId{1}, "grip in mode \"gr\303\274n\": no surface there"}};
  result.nodeTests = std::numeric_limits<std::uint64_t>::max();
  return result;
}

const std::vector<JointId> kJoints = {JointId{7}, JointId{9}};

TEST(PairRecord, GivesBackEveryField) {
  const PairResult result = fullResult();
  EXPECT_EQ(fromRecord(toRecord(result, kJoints), PartId{3}, PartId{5}, kJoints), result);
  EXPECT_EQ(fromRecord(toRecord({}, {}), {}, {}, {}), PairResult());
}

TEST(PairRecord, DoublesAreKeptBitByBit) {
  PairResult result = fullResult();
  result.gap.lowerMm = std::nextafter(0.1, 1);
  const auto again = fromRecord(toRecord(result, kJoints), PartId{3}, PartId{5}, kJoints);
  EXPECT_EQ(again->gap.lowerMm, std::nextafter(0.1, 1));
  EXPECT_TRUE(std::signbit((*again->gap.points_W)[0].y()));
}

TEST(PairRecord, PartsAndJointsHaveTheIdsOfTheFileThatAsks) {
  const std::string record = toRecord(fullResult(), kJoints);
  const auto again = fromRecord(record, PartId{0}, PartId{1}, {JointId{2}, JointId{4}});
  EXPECT_EQ(again->a, PartId{0});
  EXPECT_EQ(again->b, PartId{1});
  EXPECT_EQ(again->joint->joint, JointId{2});
  EXPECT_EQ(again->stretches[0].mover, JointId{4});
}

TEST(PairRecord, WhatIsCutShortTooLongOrNamesNoJointIsNoRecord) {
  const std::string record = toRecord(fullResult(), kJoints);
  for (std::size_t size = 0; size < record.size(); ++size) {
    EXPECT_FALSE(fromRecord(record.substr(0, size), {}, {}, kJoints)) << size;
  }
  EXPECT_FALSE(fromRecord(record + '\0', {}, {}, kJoints));
  EXPECT_FALSE(fromRecord(record, {}, {}, {JointId{7}}));
}

TEST(PairRecord, RandomBytesAreReadWithoutHarm) {
  std::mt19937 random(1);
  std::string record = toRecord(fullResult(), kJoints);
  for (int i = 0; i < 20'000; ++i) {
    std::string damaged = record;
    for (int n = 0; n < 3; ++n) damaged[random() % damaged.size()] = static_cast<char>(random());
    const auto result = fromRecord(damaged, {}, {}, kJoints);
    if (!result) continue;
    EXPECT_LE(result->verdict, Verdict::allowed);
  }
}

}  // namespace
}  // namespace swingroom
