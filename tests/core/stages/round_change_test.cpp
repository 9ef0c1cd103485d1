// Holes, pins, balls and sockets that moved, turned or changed size.
#include "core/stages/round_change.h"

#include <gtest/gtest.h>

#include "tests/core/stages/stage_shapes.h"

namespace swingroom {
namespace {

using shapes::stage;

std::vector<RoundChange> changesOf(const StageSurface& block, const StageSurface& detail,
                                   const std::vector<JointLine>& joints = {}) {
  return roundChanges(roundPlacesOf(block), roundPlacesOf(detail), detail, joints);
}

const JointLine kNeck{"neck", JointType::hinge, kOrigin, kZ};

// A hole of 3.0 mm moved by 0.15 along y. Corners lie on the circles, so that the fits are exact:
// what is left is rounding.
TEST(RoundChange, AHoleThatMovedIsNamedAfterItsJoint) {
  const StageSurface block = stage(shapes::plateWithHole(6, 4, 1.5, 48));
  const StageSurface detail = stage(shapes::plateWithHole(6, 4, 1.5, 48, {0, 0.15, 0}));
  const auto changes = changesOf(block, detail, {kNeck});
  ASSERT_EQ(changes.size(), 1u);
  EXPECT_TRUE(changes[0].isMoved());
  EXPECT_NEAR((changes[0].moved - Vector3d(0, 0.15, 0)).norm(), 0, 1e-6);
  EXPECT_NEAR(changes[0].widerMm, 0, 1e-6);
  EXPECT_FALSE(changes[0].isResized());
  EXPECT_FALSE(changes[0].isTurned());
  EXPECT_LT(changes[0].accuracyMm, 1e-6);
  EXPECT_EQ(changes[0].joints, std::vector<std::string>{"neck"});
  const auto quick = jointPlaceChanges(block, detail, {kNeck});
  ASSERT_EQ(quick.size(), 1u);
  EXPECT_NEAR(quick[0].movedMm(), 0.15, 1e-6);
}

// Widened by 0.1 on the diameter, and meshed with other corners: with 40 sides for 48 the facets lie
// up to 1.55 (1 - cos(pi / 40)) = 0.0048 mm inside the circle, the corners on it.
TEST(RoundChange, AHoleThatIsWider) {
  const auto changes = changesOf(stage(shapes::plateWithHole(6, 4, 1.5, 48)),
                                 stage(shapes::plateWithHole(6, 4, 1.55, 40)));
  ASSERT_EQ(changes.size(), 1u);
  EXPECT_TRUE(changes[0].isResized());
  EXPECT_NEAR(changes[0].widerMm, 0.1, 2 * shapes::sagitta(1.55, 40));
  EXPECT_FALSE(changes[0].isMoved());
}

TEST(RoundChange, AHoleThatIsTheSameInOtherTriangles) {
  for (const int sides : {32, 40, 96}) {
    const auto changes = changesOf(stage(shapes::plateWithHole(6, 4, 1.5, 48)),
                                   stage(shapes::plateWithHole(6, 4, 1.5, sides)));
    ASSERT_EQ(changes.size(), 1u) << sides;
    EXPECT_FALSE(changes[0].isChanged()) << sides;
  }
}

TEST(RoundChange, AHoleThatWasFilledAndOneThatIsNew) {
  const StageSurface holed = stage(shapes::plateWithHole(6, 4, 1.5, 48));
  const StageSurface whole = stage(shapes::box({-6, -6, 0}, {6, 6, 4}));
  const auto filled = changesOf(holed, whole);
  ASSERT_EQ(filled.size(), 1u);
  EXPECT_TRUE(filled[0].filled);
  EXPECT_FALSE(filled[0].after);
  const auto quick = jointPlaceChanges(holed, whole, {});
  ASSERT_EQ(quick.size(), 1u);
  EXPECT_TRUE(quick[0].filled);
  const auto drilled = changesOf(whole, holed);
  ASSERT_EQ(drilled.size(), 1u);
  EXPECT_FALSE(drilled[0].before);
  EXPECT_TRUE(drilled[0].after);
}

TEST(RoundChange, APinThatLeans) {
  const Pose X = rotationAbout(kOrigin, Vector3d::UnitX(), radFromDeg(3));
  const auto changes = changesOf(stage(shapes::cylinder(2, -5, 5, 48)),
                                 stage(shapes::moved(shapes::cylinder(2, -5, 5, 48), X)));
  ASSERT_EQ(changes.size(), 1u);
  EXPECT_TRUE(changes[0].isTurned());
  EXPECT_NEAR(degFromRad(changes[0].turnedRad), 3, 1e-4);
  EXPECT_NEAR(changes[0].movedMm(), 0, 1e-6);  // About its middle.
}

TEST(RoundChange, ABallThatMovedAndGrew) {
  const JointLine shoulder{"shoulder", JointType::ball, kOrigin, kZ};
  const auto changes = changesOf(
      stage(shapes::sphere(4, 4)),
      stage(shapes::moved(shapes::sphere(4.1, 4), translation({0.1, 0, 0.2}))), {shoulder});
  ASSERT_EQ(changes.size(), 1u);
  EXPECT_NEAR((changes[0].moved - Vector3d(0.1, 0, 0.2)).norm(), 0, 1e-5);
  EXPECT_NEAR(changes[0].widerMm, 0.2, 1e-5);
  EXPECT_EQ(changes[0].joints, std::vector<std::string>{"shoulder"});
}

}  // namespace
}  // namespace swingroom
