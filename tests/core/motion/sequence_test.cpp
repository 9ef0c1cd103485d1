#include "core/motion/sequence.h"

#include <gtest/gtest.h>

#include <cmath>

namespace swingroom {
namespace {

Joint jointOf(JointType type) {
  Joint joint;
  joint.type = type;
  return joint;
}

/// Part 0 turns (joint 0); part 1 hangs on part 0 (joint 1, slide) or stands on the ground (joint
/// 2, ball).
Assembly sample() {
  AssemblyParts parts;
  parts.parts.resize(2);
  Joint turn = jointOf(JointType::hinge), slide = jointOf(JointType::slide),
        ball = jointOf(JointType::ball);
  turn.child = PartId{0};
  slide.parent = PartId{0};
  slide.child = ball.child = PartId{1};
  parts.joints = {turn, slide, ball};
  return Assembly(parts);
}

Sequence stepsFrom(std::vector<Step> steps) {
  return Sequence{"open", ModeId{0}, ModeId{1}, std::move(steps)};
}

Sequence stepsOf(std::size_t count) {
  return stepsFrom(std::vector<Step>(count));
}

// product.md 3: steps take equal shares of the instants 0 to 1.
TEST(StepAt, StepsTakeEqualShares) {
  const Sequence sequence = stepsOf(4);
  EXPECT_EQ(stepAt(sequence, 0.125).step, 0u);
  EXPECT_DOUBLE_EQ(stepAt(sequence, 0.125).part, 0.5);
  EXPECT_EQ(stepAt(sequence, 0.9375).step, 3u);
  EXPECT_DOUBLE_EQ(stepAt(sequence, 0.9375).part, 0.75);
}

TEST(StepAt, EndsBelongToTheFirstAndTheLastStep) {
  const Sequence sequence = stepsOf(3);
  EXPECT_EQ(stepAt(sequence, 0).step, 0u);
  EXPECT_EQ(stepAt(sequence, 0).part, 0);
  EXPECT_EQ(stepAt(sequence, 1).step, 2u);
  EXPECT_EQ(stepAt(sequence, 1).part, 1);
}

TEST(StepAt, InstantsOutsideAreTakenToTheNearestEnd) {
  const Sequence sequence = stepsOf(2);
  EXPECT_EQ(stepAt(sequence, -0.5).step, 0u);
  EXPECT_EQ(stepAt(sequence, -0.5).part, 0);
  EXPECT_EQ(stepAt(sequence, 1.5).step, 1u);
  EXPECT_EQ(stepAt(sequence, 1.5).part, 1);
}

// In double, n times k / n is not always k: 22 * (15.0 / 22) < 15.
TEST(StepAt, BetweenTwoStepsTheLaterOneBegins) {
  for (std::size_t count = 1; count <= 200; ++count) {
    const Sequence sequence = stepsOf(count);
    for (std::size_t k = 0; k < count; ++k) {
      const StepInstant at = stepAt(sequence, static_cast<double>(k) / static_cast<double>(count));
      ASSERT_EQ(at.step, k) << "of " << count;
      ASSERT_GE(at.part, 0) << k << " of " << count;
      ASSERT_LT(at.part, 1e-12) << k << " of " << count;
      const double before =
          std::nextafter(static_cast<double>(k) / static_cast<double>(count), -1.0);
      ASSERT_EQ(stepAt(sequence, before).step, k == 0 ? 0 : k - 1) << "just before, of " << count;
    }
  }
}

TEST(ValueBetween, HingesAndSlidesRunEvenly) {
  for (const JointType type : {JointType::hinge, JointType::slide}) {
    const JointValue value = valueBetween(jointOf(type), {10, 0, 0}, {-30, 0, 0}, 0.25);
    EXPECT_DOUBLE_EQ(value.x(), 0);
  }
}

// A hinge may turn farther than a full turn; only a ball takes the short way.
TEST(ValueBetween, HingeTakesTheWayThatItsValuesSay) {
  EXPECT_DOUBLE_EQ(valueBetween(jointOf(JointType::hinge), {0, 0, 0}, {3 * kPi, 0, 0}, 0.5).x(),
                   1.5 * kPi);
}

TEST(ValueBetween, EndsAreExactlyTheValuesGiven) {
  const JointValue start(0.1, 0.2, 0.3), end(-4, 1, 2);
  for (const JointType type : {JointType::hinge, JointType::slide, JointType::ball}) {
    EXPECT_EQ(valueBetween(jointOf(type), start, end, 0), start);
    EXPECT_EQ(valueBetween(jointOf(type), start, end, 1), end);
  }
}

// check_values K-I5 (K): the short way.
TEST(ValueBetween, BallTakesTheShortWayAtAnEvenRate) {
  const Joint ball = jointOf(JointType::ball);
  const JointValue start(0, 0, radFromDeg(-150)), end(0, 0, radFromDeg(150));
  EXPECT_LT((ballTurn(start, end) - Vector3d(0, 0, radFromDeg(-60))).norm(), 1e-14);
  for (int i = 0; i <= 6; ++i) {
    const double angleRad = radFromDeg(-150 - 10.0 * i);
    const Pose expected = rotationAbout(Vector3d::Zero(), {0, 0, 1}, angleRad);
    const Pose actual = displacementOf(ball, valueBetween(ball, start, end, i / 6.0));
    EXPECT_LT((actual.linear() - expected.linear()).cwiseAbs().maxCoeff(), 1e-14) << "sixth " << i;
  }
}

// Every hundredth turns by the same small turn, about one axis, however the two values are placed.
TEST(ValueBetween, BallTurnsAboutOneAxis) {
  const Joint ball = jointOf(JointType::ball);
  const JointValue start(1.0, -2.0, 0.3), end(-0.4, 0.9, 2.2);
  const Vector3d share = ballTurn(start, end) / 100;
  for (int i = 0; i < 100; ++i) {
    const Vector3d turn = ballTurn(valueBetween(ball, start, end, i / 100.0),
                                   valueBetween(ball, start, end, (i + 1) / 100.0));
    ASSERT_LT((turn - share).norm(), 1e-13) << "hundredth " << i;
  }
}

TEST(BallTurn, IsAtMostAHalfTurn) {
  EXPECT_NEAR(ballTurn({0, 0, 0}, {0, kPi, 0}).norm(), kPi, 1e-14);
  EXPECT_NEAR(ballTurn({0, 0, 0}, {0, kPi + 0.1, 0}).norm(), kPi - 0.1, 1e-14);
}

TEST(ConfigurationIn, AllJointsMoveTogether) {
  const Assembly assembly = sample();
  Step step{"open", StepOrder::together, assembly.home(), assembly.home()};
  step.end.values = {{1, 0, 0}, {40, 0, 0}, {0, 0.8, 0}};
  const Configuration middle = configurationIn(assembly, step, 0.5);
  EXPECT_DOUBLE_EQ(middle.values[0].x(), 0.5);
  EXPECT_DOUBLE_EQ(middle.values[1].x(), 20);
  EXPECT_LT((middle.values[2] - Vector3d(0, 0.4, 0)).norm(), 1e-15);
}

// product.md 3: both ends are checked, the hand's way is not.
TEST(ConfigurationIn, ReplugStandsAtItsStartUntilOne) {
  const Assembly assembly = sample();
  Step step{"hand over", StepOrder::replug, assembly.home(), assembly.home()};
  step.end.mounts[1] = 1;
  step.end.values[2] = {0.5, 0, 0};
  EXPECT_EQ(configurationIn(assembly, step, 0), step.start);
  EXPECT_EQ(configurationIn(assembly, step, std::nextafter(1.0, 0.0)), step.start);
  EXPECT_EQ(configurationIn(assembly, step, 1), step.end);
}

TEST(ConfigurationAt, GoesThroughTheStepsOneAfterTheOther) {
  const Assembly assembly = sample();
  Configuration turned = assembly.home(), out = turned;
  turned.values[0].x() = out.values[0].x() = 1;
  out.values[1].x() = 40;
  const Sequence sequence = stepsFrom({{"turn", StepOrder::together, assembly.home(), turned},
                                       {"pull", StepOrder::together, turned, out}});
  EXPECT_EQ(configurationAt(assembly, sequence, 0), assembly.home());
  EXPECT_DOUBLE_EQ(configurationAt(assembly, sequence, 0.25).values[0].x(), 0.5);
  EXPECT_EQ(configurationAt(assembly, sequence, 0.25).values[1].x(), 0);
  EXPECT_EQ(configurationAt(assembly, sequence, 0.5), turned);
  EXPECT_DOUBLE_EQ(configurationAt(assembly, sequence, 0.75).values[1].x(), 20);
  EXPECT_EQ(configurationAt(assembly, sequence, 1), out);
}

// The instant after a replug shows the part on its new mount.
TEST(ConfigurationAt, TheStepAfterAReplugBeginsOnTheNewMount) {
  const Assembly assembly = sample();
  Configuration moved = assembly.home();
  moved.mounts[1] = 1;
  const Sequence sequence = stepsFrom({{"hand over", StepOrder::replug, assembly.home(), moved},
                                       {"turn", StepOrder::together, moved, moved}});
  EXPECT_EQ(configurationAt(assembly, sequence, 0.49).mounts[1], 0u);
  EXPECT_EQ(configurationAt(assembly, sequence, 0.5).mounts[1], 1u);
}

}  // namespace
}  // namespace swingroom
