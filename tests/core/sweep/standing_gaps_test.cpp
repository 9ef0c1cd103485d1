// Live gaps of a standing assembly, against closed forms and the sampled curve's own tests' solids.
#include "core/sweep/standing_gaps.h"

#include <gtest/gtest.h>

#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

struct Slider {
  Mechanism mechanism;
  PartId wall, slider;
  JointId slide;

  Slider() {
    wall = mechanism.addPart("wall", box({30, -10, -10}, {35, 10, 10}));
    slider = mechanism.addPart("slider", box({0, -3, -3}, {10, 3, 3}));
    slide = mechanism.addSlide(slider, wall, Vector3d::UnitX());
    mechanism.addStep(slide, {19, 0, 0});
  }

  std::vector<StandingGap> nearAt(double mm) const {
    const Assembly assembly = mechanism.assembly();
    Configuration standing = assembly.home();
    standing.values[slide.index].x() = mm;
    return StandingGaps(assembly, prepareGeometry(assembly, 1)).nearPairs(standing);
  }
};

// Required gap 0.3 (the default): pairs nearer than 1.8 are told. The slider's face is at 10 + x,
// the wall's at 30.
TEST(StandingGaps, FaceToFaceIsTheirDistanceWithAPointOnEach) {
  const auto near = Slider().nearAt(19);
  ASSERT_EQ(near.size(), 1u);
  EXPECT_NEAR(near[0].gapMm, 1, 1e-9);
  EXPECT_FALSE(near[0].meets);
  EXPECT_NEAR(near[0].points_W[0].x(), 30, 1e-9);  // Part 0, the wall, first.
  EXPECT_NEAR(near[0].points_W[1].x(), 29, 1e-9);
}

TEST(StandingGaps, FartherThanMattersIsLeftOut) {
  EXPECT_TRUE(Slider().nearAt(18).empty());  // 2 mm.
}

TEST(StandingGaps, OverlapMeets) {
  const auto near = Slider().nearAt(22);
  ASSERT_EQ(near.size(), 1u);
  EXPECT_TRUE(near[0].meets);
  EXPECT_EQ(near[0].gapMm, 0);
}

TEST(StandingGaps, PartWhollyInsideAnotherMeetsThoughNoSurfacesCross) {
  Mechanism mechanism;
  mechanism.addPart("block", box({-20, -20, -20}, {20, 20, 20}));
  mechanism.addPart("core", box({-1, -1, -1}, {1, 1, 1}));
  const Assembly assembly = mechanism.assembly();
  const auto near =
      StandingGaps(assembly, prepareGeometry(assembly, 1)).nearPairs(assembly.home());
  ASSERT_EQ(near.size(), 1u);
  EXPECT_TRUE(near[0].inside);
}

TEST(StandingGaps, NearestToItsRequiredGapComesFirst) {
  Mechanism mechanism;
  const PartId a = mechanism.addPart("a", box({0, 0, 0}, {10, 10, 10}));
  const PartId b = mechanism.addPart("b", box({10.5, 0, 0}, {20, 10, 10}));  // 0.5 from a.
  const PartId c = mechanism.addPart("c", box({0, 0, 10.8}, {10, 10, 20}));  // 0.8 from a.
  mechanism.parts().pairRules.push_back({a, c, 0.7, {}, std::nullopt});
  const Assembly assembly = mechanism.assembly();
  const auto near =
      StandingGaps(assembly, prepareGeometry(assembly, 1)).nearPairs(assembly.home());
  ASSERT_EQ(near.size(), 3u);  // b and c: hypot(0.5, 0.8) apart.
  EXPECT_EQ(near[0].b, c);     // 0.1 above its required gap; b is 0.2 above its.
  EXPECT_EQ(near[1].b, b);
  EXPECT_NEAR(near[2].gapMm, std::hypot(0.5, 0.8), 1e-9);
}

TEST(StandingGaps, WithinAJointsZoneNothingCounts) {
  Mechanism mechanism;
  const PartId tube = mechanism.addPart("tube", shapes::tube(8, 5, -5, 5, 64));
  const PartId pin = mechanism.addPart("pin", shapes::cylinder(4.9, -5, 5, 64));
  const JointId hinge = mechanism.addHinge(pin, tube, Vector3d::Zero(), Vector3d::UnitZ());
  mechanism.addStep(hinge, deg(90));
  const auto near = [&] {
    const Assembly assembly = mechanism.assembly();
    return StandingGaps(assembly, prepareGeometry(assembly, 1)).nearPairs(assembly.home());
  };
  ASSERT_EQ(near().size(), 1u);
  mechanism.joint(hinge).zones.push_back({6, -6, 6});
  EXPECT_TRUE(near().empty());
}

/// Gaps of all instants of a slide, asked with what was remembered of the instants before.
std::vector<std::vector<StandingGap>> rememberedAlong(const StandingGaps& gaps,
                                                      const Assembly& assembly, JointId slide,
                                                      const std::vector<double>& places) {
  GapMemory memory;
  std::vector<std::vector<StandingGap>> all;
  for (const double mm : places) {
    Configuration standing = assembly.home();
    standing.values[slide.index].x() = mm;
    all.push_back(gaps.nearPairs(standing, kMattersAboveRequiredMm, &memory));
  }
  return all;
}

// The slider's face is at 10 + x, the wall's from 30 to 35, and pairs nearer than 1.8 are told.
TEST(StandingGaps, RememberedIsNoOtherThanAskedAfresh) {
  const Slider slider;
  const Assembly assembly = slider.mechanism.assembly();
  const StandingGaps gaps(assembly, prepareGeometry(assembly, 1));
  const std::vector<double> places{17, 17.9, 18.3, 18.3, 19.5, 21, 18.3, 17, 40};
  const std::vector<double> expectedMm{-1, -1, 1.7, 1.7, 0.5, 0, 1.7, -1, -1};
  const auto all = rememberedAlong(gaps, assembly, slider.slide, places);
  for (std::size_t i = 0; i < places.size(); ++i) {
    ASSERT_EQ(all[i].size(), expectedMm[i] < 0 ? 0u : 1u) << "at " << places[i];
    if (!all[i].empty()) EXPECT_NEAR(all[i][0].gapMm, expectedMm[i], 1e-9) << "at " << places[i];
  }
}

TEST(StandingGaps, WhatHasGotInsideInOneLeapIsNotOverlookedForItsPast) {
  Mechanism mechanism;
  const PartId block = mechanism.addPart("block", box({-20, -20, -20}, {20, 20, 20}));
  const PartId core = mechanism.addPart("core", box({29, -1, -1}, {31, 1, 1}));
  const JointId slide = mechanism.addSlide(core, block, Vector3d::UnitX());
  mechanism.addStep(slide, {-30, 0, 0});
  const Assembly assembly = mechanism.assembly();
  const StandingGaps gaps(assembly, prepareGeometry(assembly, 1));
  const auto all = rememberedAlong(gaps, assembly, slide, {0, -8, -30, -29.5, -8});
  EXPECT_TRUE(all[0].empty());
  ASSERT_EQ(all[1].size(), 1u);
  EXPECT_NEAR(all[1][0].gapMm, 1, 1e-9);
  ASSERT_EQ(all[2].size(), 1u);
  EXPECT_TRUE(all[2][0].inside);
  ASSERT_EQ(all[3].size(), 1u);
  EXPECT_TRUE(all[3][0].inside);
  ASSERT_EQ(all[4].size(), 1u);
  EXPECT_NEAR(all[4][0].gapMm, 1, 1e-9);
}

}  // namespace
}  // namespace swingroom
