// The space that a part passes through, against closed forms.
#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/room/space_fixture.h"

namespace swingroom {
namespace {

using shapes::box;

TEST(SweptSpace, OfABoxThatSlidesIsALongerBox) {
  Mechanism mechanism;
  const PartId part = mechanism.addPart("part", box({0, 0, 0}, {2, 2, 2}));
  mechanism.addStep(mechanism.addSlide(part, std::nullopt, {1, 0, 0}), {6, 0, 0});
  const auto space = SpaceCase(mechanism, part).swept();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  // All of 8 x 2 x 2 is in it, and it is in that box grown by what it says.
  EXPECT_GE(space->volumeMm3, 8 * 2 * 2);
  EXPECT_LE((boundsOf(space->mesh).min() - Vector3d(0, 0, 0)).maxCoeff(), 0);
  EXPECT_GE((boundsOf(space->mesh).min() - Vector3d(0, 0, 0)).minCoeff(), -space->lossMm);
  EXPECT_LE((boundsOf(space->mesh).max() - Vector3d(8, 2, 2)).maxCoeff(), space->lossMm);
  const double l = 2 * space->lossMm;
  EXPECT_LE(space->volumeMm3, (8 + l) * (2 + l) * (2 + l));
}

TEST(SweptSpace, OfABarThatTurnsIsADisc) {
  Mechanism mechanism;
  const PartId bar = mechanism.addPart("bar", box({-5, -1, -1}, {5, 1, 1}));
  mechanism.addStep(mechanism.addHinge(bar, std::nullopt, kOrigin, kZ), deg(180));
  const auto space = SpaceCase(mechanism, bar).swept();
  ASSERT_TRUE(space.ok());
  expectSound(space->mesh);
  const double radius = std::sqrt(26.0);  // Of its corners.
  EXPECT_GE(space->volumeMm3, kPi * 26 * 2);
  const double most = radius + space->lossMm;
  EXPECT_LE(space->volumeMm3, kPi * most * most * (2 + 2 * space->lossMm));
}

// A bar that turns about a place beside it goes round a hole: nothing of it is ever there.
TEST(SweptSpace, KeepsTheHoleThatATurningPartGoesRound) {
  Mechanism mechanism;
  const PartId bar = mechanism.addPart("bar", box({4, -1, -1}, {7, 1, 1}));
  mechanism.addStep(mechanism.addHinge(bar, std::nullopt, kOrigin, kZ), deg(179.9));
  mechanism.addStep(JointId{0}, deg(359.9));
  const auto space = SpaceCase(mechanism, bar).swept();
  ASSERT_TRUE(space.ok());
  const double outer = 50;  // 7 squared and 1.
  const double inner = 16;
  EXPECT_GE(space->volumeMm3, kPi * (outer - inner) * 2);
  const double most = std::sqrt(outer) + space->lossMm, hole = 4 - space->lossMm;
  EXPECT_LE(space->volumeMm3, kPi * (most * most - hole * hole) * (2 + 2 * space->lossMm));
}

TEST(SweptSpace, SeenFromAPartThatGoesAlongIsThePartItself) {
  Mechanism mechanism;
  const PartId arm = mechanism.addPart("arm", box({0, 0, 0}, {2, 2, 2}));
  const PartId tip = mechanism.addPart("tip", box({3, 0, 0}, {5, 2, 2}));
  mechanism.addFixed(tip, arm);
  mechanism.addStep(mechanism.addHinge(arm, std::nullopt, kOrigin, kZ), deg(90));
  const SpaceCase asked(mechanism, tip);
  const auto still = asked.swept(arm), moving = asked.swept();
  ASSERT_TRUE(still.ok() && moving.ok());
  const double l = 2 * still->lossMm;
  EXPECT_GE(still->volumeMm3, 8);
  EXPECT_LE(still->volumeMm3, std::pow(2 + l, 3));
  EXPECT_GE(moving->volumeMm3, kPi / 4 * (29 - 9) * 2 - 1e-9);  // Corner at (5, 2), nearest point at 3.
}

}  // namespace
}  // namespace swingroom
