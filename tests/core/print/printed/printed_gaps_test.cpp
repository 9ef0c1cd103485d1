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
Mechanism rectangleBeforeWall() {
  Mechanism mechanism;
  mechanism.parts().requiredGapMm = 1;
  const PartId wall = mechanism.addPart("wall", box({52, -60, -5}, {55, 60, 5}));
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
  addPrintedFindings(checkPrintedGaps(fixture.subject(), fixture.plays, monitor),
                     findings);
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
  EXPECT_NEAR(gap.playMm, 0.4, 1e-12);
  // The corner can go straight for the wall, and no nearer.
  EXPECT_LE(gap.playLowerMm, 1.6 + 1e-9);
  EXPECT_GE(gap.playLowerMm, 1.6 - 0.01 - 1e-9);
}

TEST(PrintedGaps, TiltIsTakenByTheLongestLever) {
  PrintFixture fixture(rectangleBeforeWall());
  fixture.growBy(0);
  fixture.plays[0].source = PlaySource::written;
  fixture.plays[0].asPrinted.tiltRad = 0.01;
  fixture.check();
  const PrintedGap gap = printedGapOf(fixture);
  // Farthest corner of the plate from the middle of the hinge.
  const double lever = std::sqrt(40.0 * 40 + 30 * 30 + 25);
  EXPECT_NEAR(gap.playMm, 2 * std::sin(0.005) * lever, 1e-9);
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
