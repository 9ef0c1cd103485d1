// Gaps as printed: growth and play, closed forms.
#include <gtest/gtest.h>

#include <cmath>

#include "core/print/printed/printed_gaps.h"
#include "tests/core/print/print_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

/// Check values M-1: a rectangle 40 x 30 that turns about its corner by -90 degrees before a wall
/// at x = 52: the least gap is 2 (its diagonal is 50), on the way, at -36.8699 degrees.
Mechanism rectangleBeforeWall(double wallMm = 52) {
  Mechanism mechanism;
  mechanism.parts().requiredGapMm = 1;
  const PartId wall = mechanism.addPart("wall", box({wallMm, -60, -5}, {wallMm + 3, 60, 5}));
  const PartId plate = mechanism.addPart("plate", box({0, 0, -5}, {40, 30, 5}));
  const JointId hinge = mechanism.addHinge(plate, wall, Vector3d::Zero(), Vector3d::UnitZ());
  mechanism.addStep(hinge, deg(-90));
  return mechanism;
}

PrintedGap printedGapOf(const PrintFixture& fixture) {
  WorkMonitor monitor;
  return checkPrintedGaps(fixture.subject(), fixture.plays, monitor).pairs.at(0);
}

TEST(PrintedGaps, GrowthOfBothSidesIsTakenOffTheGapOnTheWay) {
  PrintFixture fixture(rectangleBeforeWall());
  fixture.growBy(0.15);
  fixture.check();
  const PrintedGap gap = printedGapOf(fixture);
  EXPECT_EQ(gap.state, PrintedState::apart);
  EXPECT_NEAR(gap.growthMm, 0.3, 1e-12);
  EXPECT_LE(gap.lowerMm, 1.7 + 1e-9);
  ASSERT_TRUE(gap.upperMm.has_value());
  EXPECT_GE(*gap.upperMm, 1.7 - 1e-9);
  EXPECT_LE(*gap.upperMm - gap.lowerMm, 0.01 + 1e-9);
  EXPECT_NEAR(gap.instant, 36.8698976 / 90, 0.02);
}

TEST(PrintedGaps, WhatGrowsMoreThanItsGapCloses) {
  PrintFixture fixture(rectangleBeforeWall());
  fixture.growBy(1.1);
  fixture.check();
  const PrintedGap gap = printedGapOf(fixture);
  EXPECT_EQ(gap.state, PrintedState::closes);
  EXPECT_NEAR(*gap.upperMm, -0.2, 0.01);
  PrintFindings findings;
  WorkMonitor monitor;
  addPrintedFindings(checkPrintedGaps(fixture.subject(), fixture.plays, monitor), findings);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].word, PrintWord::closesAsPrinted);
  EXPECT_EQ(findings[0].grade, PrintGrade::finding);
}

TEST(PrintedGaps, ABoughtPartDoesNotGrow) {
  PrintFixture fixture(rectangleBeforeWall());
  fixture.growBy(0.15);
  fixture.prints[0].printed = false;
  fixture.check();
  EXPECT_NEAR(printedGapOf(fixture).growthMm, 0.15, 1e-12);
}

TEST(PrintedGaps, TravelOfTheJointIsTakenOffBoth) {
  PrintFixture fixture(rectangleBeforeWall());
  fixture.growBy(0);
  fixture.plays[0].source = PlaySource::written;
  fixture.plays[0].asPrinted.radialMm = 0.4;
  fixture.check();
  const PrintedGap gap = printedGapOf(fixture);
  // The corner can go straight for the wall, and no nearer.
  EXPECT_LE(gap.playLowerMm, 1.6 + 1e-9);
  EXPECT_GE(gap.playLowerMm, 1.6 - 0.01 - 1e-9);
}

// Closed form: the plate's corner stands at x = 50, 5 above the middle of the hinge, when it is
// nearest; a tilt about y takes it to 50 cos 0.01 + 5 sin 0.01. The hinge's own turn is no tilt.
TEST(PrintedGaps, AHingeTiltsOnlyAcrossItsAxis) {
  PrintFixture fixture(rectangleBeforeWall(51));
  fixture.growBy(0);
  fixture.plays[0].source = PlaySource::written;
  fixture.plays[0].asPrinted.tiltRad = 0.01;
  fixture.check();
  const PrintedGap gap = printedGapOf(fixture);
  const double left = 51 - (50 * std::cos(0.01) + 5 * std::sin(0.01));
  EXPECT_LE(gap.playLowerMm, left + 1e-9);
  EXPECT_GE(gap.playLowerMm, left - 0.03);
  ASSERT_TRUE(gap.playUpperMm.has_value());
  EXPECT_GE(*gap.playUpperMm, left - 1e-9);
}

TEST(PrintedGaps, PlayThatReachesAcrossTheGapIsSeenToTouch) {
  PrintFixture fixture(rectangleBeforeWall());
  fixture.growBy(0);
  fixture.plays[0].source = PlaySource::written;
  fixture.plays[0].asPrinted.radialMm = 2.1;
  fixture.check();
  const PrintedGap gap = printedGapOf(fixture);
  EXPECT_EQ(gap.playLowerMm, 0);
  ASSERT_TRUE(gap.playUpperMm.has_value());
  EXPECT_EQ(*gap.playUpperMm, 0);
  EXPECT_EQ(gap.state, PrintedState::apart) << "without play it keeps away";
}

// What hangs by the joint itself is stopped by the touch: that is play. Two that hang on a third
// rub.
TEST(PrintedGaps, OnlyPairsThatDoNotHangTogetherRub) {
  Mechanism mechanism;
  mechanism.parts().requiredGapMm = 0.2;
  const PartId base = mechanism.addPart("base", box({-50, -50, -10}, {50, 50, -5}));
  const PartId left = mechanism.addPart("left", box({-20, 0, 0}, {-1, 10, 5}));
  const PartId right = mechanism.addPart("right", box({1, 0, 0}, {20, 10, 5}));
  mechanism.addSlide(left, base, Vector3d::UnitY());
  const JointId slide = mechanism.addSlide(right, base, Vector3d::UnitY());
  mechanism.addStep(slide, {5, 0, 0});
  PrintFixture fixture(mechanism);
  fixture.growBy(0);
  // 1.1 of travel each, across a gap of 2 to each other and of 5 to the base.
  for (JointPlay& play : fixture.plays) {
    play.source = PlaySource::written;
    play.asPrinted.radialMm = 1.1;
  }
  fixture.check();
  WorkMonitor monitor;
  PrintFindings findings;
  addPrintedFindings(checkPrintedGaps(fixture.subject(), fixture.plays, monitor), findings);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].word, PrintWord::rubsWithPlay);
  EXPECT_EQ(findings[0].grade, PrintGrade::hint);
  EXPECT_EQ(findings[0].lower, 1);
  for (JointPlay& play : fixture.plays) play.asPrinted.radialMm = 5.5;
  PrintFindings farther;
  addPrintedFindings(checkPrintedGaps(fixture.subject(), fixture.plays, monitor), farther);
  EXPECT_EQ(farther, findings) << "that they now touch their base is their play";
}

TEST(PrintedGaps, OfAJointWhosePlayIsNotKnownNothingIsSaid) {
  PrintFixture fixture(rectangleBeforeWall());
  fixture.growBy(0);
  fixture.check();
  const PrintedGap gap = printedGapOf(fixture);
  EXPECT_EQ(gap.state, PrintedState::apart);
  EXPECT_FALSE(gap.playIsKnown);
  EXPECT_EQ(gap.playLowerMm, 0);
  EXPECT_FALSE(gap.playUpperMm.has_value());
}

TEST(PrintedGaps, PartsThatRestAreJudgedOutsideTheirContact) {
  // A block slides down onto a plate; it may rest there in the second mode.
  Mechanism mechanism;
  const PartId plate = mechanism.addPart("plate", box({-20, -20, -2}, {20, 20, 0}));
  const PartId block = mechanism.addPart("block", box({-5, -5, 10}, {5, 5, 15}));
  const JointId slide = mechanism.addSlide(block, plate, -Vector3d::UnitZ());
  mechanism.addStep(slide, {10, 0, 0});
  PairRule rule;
  rule.a = plate;
  rule.b = block;
  Contact rest;
  rest.kind = ContactKind::rest;
  rest.modes = {ModeId{1}};
  rule.contacts = {rest};
  mechanism.parts().pairRules = {rule};
  PrintFixture fixture(mechanism);
  fixture.growBy(0.1);
  fixture.check();
  EXPECT_EQ(printedGapOf(fixture).state, PrintedState::contact);
}

TEST(PrintedGaps, WithoutACheckNothingIsJudged) {
  const PrintFixture fixture(rectangleBeforeWall());
  WorkMonitor monitor;
  const PrintedGaps gaps = checkPrintedGaps(fixture.subject(), fixture.plays, monitor);
  EXPECT_FALSE(gaps.judged);
  EXPECT_TRUE(gaps.pairs.empty());
}

}  // namespace
}  // namespace swingroom
