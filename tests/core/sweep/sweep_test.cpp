#include "core/sweep/sweep.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <memory>
#include <random>

#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

/// A 1 mm cube that slides 100 mm past a thin pin of thickness `thicknessMm` at x = `at`, whose tip just reaches
/// into its way.
Mechanism pastThinPin(double at, double thicknessMm) {
  Mechanism mechanism;
  const PartId pin = mechanism.addPart("pin", box({at, -0.5, 0.49}, {at + thicknessMm, 0.5, 5}));
  // A blade of no length along the way: contact lasts for the two thicknesses only.
  const PartId blade = mechanism.addPart("blade", box({0, -0.5, -3}, {thicknessMm, 0.5, 0.5}));
  mechanism.parts().requiredGapMm = 0;
  mechanism.addStep(mechanism.addSlide(blade, {}, Vector3d::UnitX()), {100, 0, 0});
  (void)pin;
  return mechanism;
}

// Contact over 2 x 0.005 mm of 100 mm: 1e-4 of the sequence, between the samples of any fixed grid of up to 1000.
TEST(Sweep, ContactOneTenThousandthWideIsFoundWhereverItLies) {
  constexpr std::uint64_t kSeed = 7;
  RecordProperty("seed", std::to_string(kSeed));
  std::mt19937_64 random(kSeed);
  for (int round = 0; round < 10; ++round) {
    const double at = 100 * (std::floor(std::uniform_real_distribution<double>(50, 900)(random)) + 0.4987) / 1000;
    const PairResult pair = pastThinPin(at, 0.005).checkFirstPair();
    ASSERT_EQ(pair.verdict, Verdict::clash) << at;
    ASSERT_EQ(pair.stretches.size(), 1u);
    EXPECT_NEAR(pair.stretches[0].from * 100, at - 0.005, 100 * 1e-4);
    EXPECT_NEAR(pair.stretches[0].to * 100, at + 0.005, 100 * 1e-4);
  }
}

TEST(Sweep, OneThreadAndFourGiveTheSameResult) {
  Mechanism mechanism;
  const PartId ground = mechanism.addPart("ground", box({-30, -30, -5}, {30, 30, 0}));
  for (int i = 0; i < 6; ++i) {
    const double x = -25 + 10.0 * i;
    const PartId arm = mechanism.addPart("arm " + std::to_string(i),
                                         shapes::moved(shapes::capsule(2, 18, 16), translation({x, -10, 2.4})));
    mechanism.addHinge(arm, ground, {x, -10, 3}, Vector3d(0.05 * i, 0.1, 1));
  }
  std::vector<std::pair<JointId, JointValue>> moves;
  for (std::size_t i = 0; i < 6; ++i) moves.emplace_back(JointId{i}, deg(40.0 + 20.0 * static_cast<double>(i)));
  mechanism.addStep(moves);
  EXPECT_EQ(mechanism.check(1), mechanism.check(4));
}

TEST(Sweep, BoxWhollyInsideAnotherIsAClashThoughNoSurfacesCross) {
  Mechanism mechanism;
  mechanism.addPart("room", box({-10, -10, -10}, {10, 10, 10}));
  mechanism.addPart("cube", box({-2, -2, -2}, {2, 2, 2}));
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clash);
  ASSERT_TRUE(pair.stretches.at(0).depthMm);
  // Deepest point of the cube's surface: a face's middle is 8 from the wall ahead, an edge or corner no more.
  EXPECT_NEAR(*pair.stretches[0].depthMm, 8.0, 0.02);
  EXPECT_EQ(pair.modes[0].upperMm, 0.0);
}

TEST(Sweep, BoxInsideTheCavityOfAHollowBoxIsClear) {
  Mechanism mechanism;
  mechanism.addPart("hollow", shapes::joined({box({-10, -10, -10}, {10, 10, 10}),
                                              shapes::reversed(box({-8, -8, -8}, {8, 8, 8}))}));
  mechanism.addPart("cube", box({-2, -2, -2}, {2, 2, 7}));
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clear);
  EXPECT_NEAR(*pair.gap.upperMm, 1.0, 1e-9);
  EXPECT_NEAR(pair.gap.lowerMm, 1.0, 1e-6);
  EXPECT_EQ(pair.gap.instant, 0.0);
}

TEST(Sweep, PartThatSlidesIntoAThickWallAndStopsInsideStaysAClashToTheEnd) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({20, -30, -30}, {120, 30, 30}));
  const PartId cube = mechanism.addPart("cube", box({-5, -5, -5}, {5, 5, 5}));
  mechanism.addStep(mechanism.addSlide(cube, wall, Vector3d::UnitX()), {60, 0, 0});
  const PairResult pair = mechanism.checkFirstPair();
  const Stretch& clash = pair.stretches.back();
  EXPECT_EQ(clash.verdict, Verdict::clash);
  EXPECT_NEAR(clash.from, 15.0 / 60, 1e-4);
  EXPECT_EQ(clash.to, 1.0);
  // At the end the cube spans x 55 to 65 in a wall of x 20 to 120: the middle of its leading face is 45 from the
  // near side, 55 from the far one and 30 from each of y = +-30 and z = +-30.
  EXPECT_NEAR(*clash.depthMm, 30.0, 0.02);
}

TEST(Sweep, TightStretchEndsWhereTheGapCrossesTheRequiredOne) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({30, -10, -10}, {35, 10, 10}));
  const PartId slider = mechanism.addPart("slider", box({0, -3, -3}, {10, 3, 3}));
  mechanism.parts().requiredGapMm = 0.3;
  mechanism.addStep(mechanism.addSlide(slider, wall, Vector3d::UnitX()), {19.9, 0, 0});
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::tight);
  ASSERT_EQ(pair.stretches.size(), 1u);
  EXPECT_NEAR(pair.stretches[0].from, 19.7 / 19.9, 1e-4);
  EXPECT_EQ(pair.stretches[0].to, 1.0);
  EXPECT_NEAR(*pair.gap.upperMm, 0.1, 1e-9);
}

TEST(Sweep, GapOfExactlyTheRequiredOneIsClear) {
  Mechanism mechanism;
  const PartId rail = mechanism.addPart("rail", box({-50, -5, -5}, {50, 5, 0}));
  const PartId slider = mechanism.addPart("slider", box({-5, -5, 0.3f}, {5, 5, 5}));  // As an STL would hold it.
  mechanism.parts().requiredGapMm = 0.3;
  mechanism.addStep(mechanism.addSlide(slider, rail, Vector3d::UnitX()), {30, 0, 0});
  EXPECT_EQ(mechanism.checkFirstPair().verdict, Verdict::clear);
}

// Corner at radius 50 past a wall at 50 + gap: the least gap is on the way (check value M-1's form).
TEST(Sweep, GapJustBeyondWhatMattersHasNoUpperBoundAndJustBelowItHasBoth) {
  for (const double gapMm : {1.806, 1.7995}) {  // Matters below 0.3 + 1.5.
    Mechanism mechanism;
    const PartId wall = mechanism.addPart("wall", box({50 + gapMm, -100, -5}, {60, 100, 15}));
    const PartId plate = mechanism.addPart("plate", box({0, 0, 0}, {40, 30, 10}));
    mechanism.parts().requiredGapMm = 0.3;
    mechanism.addStep(mechanism.addHinge(plate, wall, Vector3d::Zero(), Vector3d::UnitZ()), deg(-90));
    const GapBracket gap = mechanism.checkFirstPair().gap;
    EXPECT_EQ(gap.upperMm.has_value(), gapMm < 1.8);
    EXPECT_GE(gap.lowerMm, gapMm < 1.8 ? gapMm - 0.01 : 1.8 - 2e-6);
    EXPECT_LE(gap.lowerMm, gapMm + 1e-9);
  }
}

TEST(Sweep, EveryStepIsLookedAtOnItsOwnAndInstantsAreSharedEvenly) {
  // Step 1 lifts, step 2 shifts over the block with 2 mm to spare, step 3 lowers behind it by 1 mm too much.
  Mechanism mechanism;
  const PartId block = mechanism.addPart("block", box({20, -10, 0}, {30, 10, 10}));
  const PartId floor = mechanism.addPart("floor", box({-20, -20, -6}, {80, 20, -1}));
  const PartId cube = mechanism.addPart("cube", box({0, -5, 0}, {10, 5, 10}));
  const JointId lift = mechanism.addSlide(cube, {}, Vector3d::UnitZ());
  const JointId shift = mechanism.addSlide(cube, {}, Vector3d::UnitX());
  mechanism.addStep(lift, {12, 0, 0});
  mechanism.addStep(shift, {40, 0, 0});
  mechanism.addStep(lift, {-2, 0, 0});
  const SequenceResult result = mechanism.check();
  const PairResult& overBlock = result.pairs.at(1);
  ASSERT_EQ(overBlock.a, block);
  ASSERT_EQ(overBlock.b, cube);
  EXPECT_EQ(overBlock.verdict, Verdict::clear);
  const PairResult& withFloor = result.pairs.at(2);
  ASSERT_EQ(withFloor.a, floor);
  EXPECT_EQ(withFloor.verdict, Verdict::clash);
  // Of the third step 14 mm down, the cube touches the floor after 13 (from 12 to -1).
  EXPECT_NEAR(withFloor.stretches.back().from, (2 + 13.0 / 14) / 3, 1e-4);
  EXPECT_EQ(withFloor.stretches.back().mover, lift);
  EXPECT_NEAR(*withFloor.stretches.back().depthMm, 1.0, 0.02);
}

TEST(Sweep, MoverIsTheJointThatBringsThePartsTogetherNotTheFastest) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({30, -50, -50}, {35, 50, 50}));
  const PartId cube = mechanism.addPart("cube", box({-5, -5, -5}, {5, 5, 5}));
  const JointId along = mechanism.addSlide(cube, wall, Vector3d::UnitY());
  const JointId towards = mechanism.addSlide(cube, wall, Vector3d::UnitX());
  mechanism.addStep({{along, {40, 0, 0}}, {towards, {26, 0, 0}}});
  EXPECT_EQ(mechanism.checkFirstPair().stretches.back().mover, towards);
}

TEST(Sweep, OpenSurfaceIsCheckedAsASurfaceAndSaysThatInsideIsNotJudged) {
  TriangleMesh open = box({-10, -10, -10}, {10, 10, 10});
  open.triangles.pop_back();
  Mechanism mechanism;
  mechanism.addPart("open", open);
  mechanism.addPart("cube", box({-2, -2, -2}, {2, 2, 2}));
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_FALSE(pair.insideJudged);
  EXPECT_EQ(pair.verdict, Verdict::clear) << "8 mm between the surfaces";
}

TEST(Sweep, BudgetThatRunsOutIsUnprovenAndNeverClear) {
  Mechanism mechanism;
  const PartId ball = mechanism.addPart("ball", shapes::sphere(10, 3));
  const PartId cup = mechanism.addPart("cup", shapes::moved(shapes::torus(20, 9, 40, 24), translation({0, 0, 1})));
  mechanism.parts().requiredGapMm = 0.5;
  mechanism.addStep(mechanism.addHinge(cup, ball, Vector3d::Zero(), Vector3d::UnitX()), deg(50));
  const Assembly assembly = mechanism.assembly();
  SweepSettings settings;
  settings.budget = 2000;
  WorkMonitor monitor;
  const SequenceResult result = sweep(assembly, mechanism.modes(), mechanism.sequence(),
                                      prepareGeometry(assembly, 1), settings, monitor);
  const PairResult& pair = result.pairs.at(0);
  EXPECT_NE(pair.verdict, Verdict::clear);
  bool unproven = false;
  for (const Stretch& stretch : pair.stretches) unproven |= stretch.verdict == Verdict::unproven;
  EXPECT_TRUE(unproven);
}

/// Two cubes of 2 mm: a post that slides along y from the origin and a bar that slides along x from (-10, 10).
struct Crossing {
  explicit Crossing(double requiredGapMm) {
    mechanism.parts().requiredGapMm = requiredGapMm;
    post = mechanism.addPart("post", box({-1, -1, -1}, {1, 1, 1}));
    bar = mechanism.addPart("bar", shapes::moved(box({-1, -1, -1}, {1, 1, 1}), translation({-10, 10, 0})));
    first = mechanism.addSlide(post, {}, Vector3d::UnitY());
    second = mechanism.addSlide(bar, {}, Vector3d::UnitX());
  }
  PairResult check(const JointValue& ofPost, const JointValue& ofBar) {
    mechanism.addStep({{first, ofPost}, {second, ofBar}}, StepOrder::free);
    return mechanism.check().pairs.at(0);
  }
  double valueOf(const Stretch& stretch, JointId joint) const {
    for (const JointStand& stand : stretch.combination) {
      if (stand.joint == joint) return stand.value.x();
    }
    return std::numeric_limits<double>::quiet_NaN();
  }

  Mechanism mechanism;
  PartId post, bar;
  JointId first, second;
};

// Closed form: post at (0, s), bar at (-10 + t, 10): they overlap where |t - 10| < 2 and |s - 10| < 2.
TEST(FreeOrder, WhatIsClearTogetherAndClashesInAnotherOrderIsFoundWithItsCombination) {
  Crossing crossing(0.3);
  const PairResult pair = crossing.check({12, 0, 0}, {4, 0, 0});
  // The bar at x = -10 to -6 never comes over the post at x = 0: clear however they move.
  EXPECT_EQ(pair.verdict, Verdict::clear);

  Crossing meeting(0.3);
  // Together s = 2.5 t: the post is through (t = 3.2 to 4.8) before the bar comes (t > 8).
  const PairResult other = meeting.check({30, 0, 0}, {12, 0, 0});
  ASSERT_EQ(other.verdict, Verdict::clash);
  ASSERT_EQ(other.stretches.size(), 1u);
  const Stretch& stretch = other.stretches.front();
  EXPECT_EQ(stretch.from, 0);
  EXPECT_EQ(stretch.to, 1);
  const double postY = meeting.valueOf(stretch, meeting.first);
  const double barX = -10 + meeting.valueOf(stretch, meeting.second);
  EXPECT_LE(std::abs(postY - 10), 2 + 1e-6);
  EXPECT_LE(std::abs(barX), 2 + 1e-6);
  // Two unit cubes of 2 mm that overlap by (a, b, 2): the way out is the smaller of a and b.
  const double a = 2 - std::abs(barX), b = 2 - std::abs(postY - 10);
  ASSERT_TRUE(stretch.depthMm);
  EXPECT_LE(*stretch.depthMm, std::min({a, b, 1.0}) + 1e-6);
}

// Closed form: the post stays below y = 7 (its top at 8), the bar's underside is at 9: 1 mm apart in the nearest
// combination, which is the end of both and of the bar over the post alone.
TEST(FreeOrder, TheLeastGapOfAllCombinationsIsBracketed) {
  Crossing crossing(0.3);
  const PairResult pair = crossing.check({7, 0, 0}, {20, 0, 0});
  EXPECT_EQ(pair.verdict, Verdict::clear);
  ASSERT_TRUE(pair.gap.upperMm);
  EXPECT_LE(pair.gap.lowerMm, 1 + 1e-9);
  EXPECT_GE(*pair.gap.upperMm, 1 - 1e-9);
  EXPECT_LE(*pair.gap.upperMm - pair.gap.lowerMm, 0.0101);
}

// The same with 1.2 mm required: together the bar is past before the post is up (at x = 4 and more from t = 14 on),
// so only another order is tight.
TEST(FreeOrder, WhatIsTightInAnotherOrderOnlyIsFound) {
  Crossing crossing(1.2);
  const PairResult pair = crossing.check({7, 0, 0}, {40, 0, 0});
  ASSERT_EQ(pair.verdict, Verdict::tight);
  ASSERT_FALSE(pair.stretches.empty());
  EXPECT_NEAR(*pair.gap.upperMm, 1, 0.0101);
  const Stretch& stretch = pair.stretches.back();
  EXPECT_GT(crossing.valueOf(stretch, crossing.first), 6.8 - 1e-3);
}

TEST(FreeOrder, AFollowerGoesWithItsLeader) {
  Mechanism mechanism;
  mechanism.addPart("still", box({-5, -5, -5}, {5, 5, 5}));
  const PartId near = mechanism.addPart("near", box({20, -5, -5}, {30, 5, 5}));
  const PartId far = mechanism.addPart("far", box({31, -5, -5}, {41, 5, 5}));
  const JointId lead = mechanism.addSlide(near, {}, Vector3d::UnitX());
  const JointId follow = mechanism.addSlide(far, {}, Vector3d::UnitX());
  mechanism.parts().joints[follow.index].follows = JointFollow{lead, 1, 0};
  mechanism.addStep({{lead, {5, 0, 0}}, {follow, {5, 0, 0}}}, StepOrder::free);
  const SequenceResult result = mechanism.check();
  // Both go 5 mm together and stay 1 mm apart; each for itself they would be driven into each other.
  EXPECT_EQ(result.pairs.at(2).verdict, Verdict::clear);
  EXPECT_NEAR(*result.pairs.at(2).gap.upperMm, 1, 1e-6);
}

TEST(Sweep, CancelStopsTheWork) {
  Mechanism mechanism;
  mechanism.addPart("a", box({0, 0, 0}, {1, 1, 1}));
  mechanism.addPart("b", box({5, 0, 0}, {6, 1, 1}));
  const Assembly assembly = mechanism.assembly();
  WorkMonitor monitor;
  monitor.cancel();
  const SequenceResult result =
      sweep(assembly, mechanism.modes(), mechanism.sequence(), prepareGeometry(assembly, 1), {}, monitor);
  EXPECT_EQ(result.pairs.at(0).verdict, Verdict::unproven);
}

TEST(Sweep, AllowedPairKeepsItsFindingsAndLeavesTheVerdicts) {
  Mechanism mechanism;
  const PartId a = mechanism.addPart("a", box({0, 0, 0}, {2, 2, 2}));
  const PartId b = mechanism.addPart("b", box({1, 1, 1}, {3, 3, 3}));
  mechanism.parts().pairRules.push_back({a, b, {}, {}, "glued"});
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::allowed);
  EXPECT_EQ(pair.stretches.at(0).verdict, Verdict::clash);
}

TEST(Sweep, ModeThatNoSequenceReachesIsCheckedStanding) {
  Mechanism mechanism;
  mechanism.addPart("a", box({0, 0, 0}, {1, 1, 1}));
  const auto modes = mechanism.modes();
  const auto ways = waysToCheck(modes, {});
  ASSERT_EQ(ways.size(), 2u);
  EXPECT_EQ(ways[0].name, "start");
  EXPECT_EQ(waysToCheck(modes, {mechanism.sequence()}).size(), 1u);
}

}  // namespace
}  // namespace swingroom
