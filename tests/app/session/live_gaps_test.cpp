#include "app/session/check/live_gaps.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <thread>

#include "app/session/stand.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

constexpr double kFloat32Mm = 5e-6;  ///< STL coordinates are single precision.
constexpr double kDepthMm = 0.02;    ///< What is promised of a depth.

/// Asks and keeps the answers.
class Asked {
 public:
  Asked() {
    QObject::connect(&gaps, &LiveGaps::pairMeasured,
                     [this](const auto& now) { pairs.push_back(now); });
    QObject::connect(&gaps, &LiveGaps::allMeasured,
                     [this](const auto& near) { all.push_back(near); });
  }
  LiveGaps::Question question(const Stand& stand, const char* a, const char* b) const {
    return {stand.scene(), stand.standing(),
            PartPair(part(*stand.scene(), a), part(*stand.scene(), b)), false};
  }

  std::vector<PairNow> pairs;
  std::vector<std::vector<StandingGap>> all;
  LiveGaps gaps;  ///< Ends before what its answers go to.
};

/// README.md of the sample, "box and lid": the skirt's edge is 0.5 from the front wall when the lid
/// is open by atan(14 / 48), just as high as the axis.
TEST(LiveGaps, TheGapNowAndItsTwoPointsAreThoseOfTheClosedForm) {
  const Bench bench = Bench::hatchBox();
  Stand stand;
  stand.setScene(bench.scene());
  stand.moveTo(0.5 + degFromRad(std::atan2(14, 48)) / 220);
  Asked asked;
  asked.gaps.ask(asked.question(stand, "box", "lid"));
  ASSERT_TRUE(waitUntil([&] { return !asked.pairs.empty(); }));
  const PairNow& now = asked.pairs.front();
  EXPECT_FALSE(now.meets);
  EXPECT_NEAR(now.gapMm.value(), 0.5, kFloat32Mm);
  ASSERT_TRUE(now.points_W);
  EXPECT_NEAR((*now.points_W)[0].y(), -50.5, kFloat32Mm) << "on the box: the wall's inner face";
  EXPECT_NEAR((*now.points_W)[1].y(), -50, kFloat32Mm) << "on the lid: the skirt's edge";
  EXPECT_NEAR((*now.points_W)[1].z(), 24, kFloat32Mm);
  EXPECT_FALSE(now.depthMm);
}

/// The gap of the way "push" at instant t is 4 - 5 t (tests/app/support/assemblies.h).
TEST(LiveGaps, AnAnswerThatComesAfterTheNextQuestionIsCalledLate) {
  const Bench bench = Bench::press();
  Stand stand;
  stand.setScene(bench.scene());
  Asked asked;
  asked.gaps.ask(asked.question(stand, "block", "sled"));
  std::this_thread::sleep_for(std::chrono::milliseconds(300));  // Answered, but not yet heard.
  stand.moveTo(0.4);
  asked.gaps.ask(asked.question(stand, "block", "sled"));
  ASSERT_TRUE(waitUntil([&] { return !asked.pairs.empty() && !asked.pairs.back().late; }));
  for (const PairNow& now : asked.pairs) {
    EXPECT_NEAR(now.gapMm.value(), now.late ? 4.0 : 2.0, kFloat32Mm);
  }
}

TEST(LiveGaps, AnOverlapMadeByHandGetsItsDepth) {
  const Bench bench = Bench::press();
  Stand stand;
  stand.setScene(bench.scene());
  stand.moveJoint(joint(*stand.scene(), "sled way"), {5.5, 0, 0});  // 4 apart at 0.
  Asked asked;
  asked.gaps.ask(asked.question(stand, "block", "sled"));
  ASSERT_TRUE(waitUntil([&] { return !asked.pairs.empty() && asked.pairs.back().depthMm; }));
  ASSERT_EQ(asked.pairs.size(), 2u);
  EXPECT_TRUE(asked.pairs[0].meets) << "that they meet is said before the depth is known";
  EXPECT_FALSE(asked.pairs[0].depthMm);
  EXPECT_NEAR(*asked.pairs[1].depthMm, 1.5, kDepthMm);
  ASSERT_TRUE(asked.pairs[1].points_W);
  const auto& [deepest, wayOut] = *asked.pairs[1].points_W;
  EXPECT_NEAR((deepest - wayOut).norm(), 1.5, kDepthMm);
  for (const Vector3d& p : {deepest, wayOut}) {
    EXPECT_GE(p.x(), 8.5 - kDepthMm) << "the overlap is from 8.5 to 10";
    EXPECT_LE(p.x(), 10 + kDepthMm);
  }
}

TEST(LiveGaps, ANewerQuestionWins) {
  const Bench bench = Bench::press();
  Stand stand;
  stand.setScene(bench.scene());
  Asked asked;
  for (const double at : {5.5, 0.5, 1.5, 2.5}) {
    stand.moveJoint(joint(*stand.scene(), "sled way"), {at, 0, 0});
    asked.gaps.ask(asked.question(stand, "block", "sled"));
  }
  ASSERT_TRUE(waitUntil([&] { return !asked.pairs.empty(); }));
  letTimePass();
  // Earlier ones may be answered too (a figure that is late is better than none), never later.
  EXPECT_NEAR(asked.pairs.back().gapMm.value(), 1.5, kFloat32Mm) << "4 - 2.5";
}

TEST(LiveGaps, AskingNothingSilencesWhatWasAsked) {
  const Bench bench = Bench::press();
  Stand stand;
  stand.setScene(bench.scene());
  Asked asked;
  asked.gaps.ask(asked.question(stand, "block", "sled"));
  asked.gaps.ask({});
  letTimePass();
  EXPECT_TRUE(asked.pairs.empty());
}

TEST(LiveGaps, AllNearPairsAreThoseWithin1Point5OfTheRequiredGap) {
  const Bench bench = Bench::press();
  Stand stand;
  stand.setScene(bench.scene());
  stand.moveJoint(joint(*stand.scene(), "sled way"), {3, 0, 0});  // 1 from the block.
  Asked asked;
  LiveGaps::Question question = asked.question(stand, "block", "post");
  question.all = true;
  asked.gaps.ask(question);
  ASSERT_TRUE(waitUntil([&] { return !asked.all.empty() && !asked.pairs.empty(); }));
  ASSERT_EQ(asked.pairs.size(), 1u);
  EXPECT_NEAR(asked.pairs[0].gapMm.value(), 90, 1e-5) << "the chosen pair at any distance";
  // Cap on block, rail over sled, sled before block; 2 from block to rail is too far.
  std::vector<double> gaps;
  for (const StandingGap& gap : asked.all[0]) gaps.push_back(gap.gapMm);
  ASSERT_EQ(gaps.size(), 3u);
  EXPECT_NEAR(gaps[0], 0, kFloat32Mm);
  EXPECT_NEAR(gaps[1], 0.2, kFloat32Mm);
  EXPECT_NEAR(gaps[2], 1, kFloat32Mm);
}

TEST(LiveGaps, EndsWhileItMeasures) {
  const Bench bench = Bench::press();
  Stand stand;
  stand.setScene(bench.scene());
  for (int i = 0; i < 20; ++i) {
    Asked asked;
    asked.gaps.ask(asked.question(stand, "block", "sled"));
  }
}

}  // namespace
}  // namespace swingroom
