#include "core/motion/joint_fit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <stdexcept>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

Joint hinge(const Vector3d& through, const Vector3d& along) {
  Joint joint;
  joint.type = JointType::hinge;
  joint.through = through;
  joint.along = along.normalized();
  return joint;
}

Joint slide(const Vector3d& along) {
  Joint joint;
  joint.type = JointType::slide;
  joint.along = along.normalized();
  return joint;
}

Joint ball(const Vector3d& through) {
  Joint joint;
  joint.type = JointType::ball;
  joint.through = through;
  return joint;
}

/// A part of 40 by 20 by 10 mm, away from the origin.
const std::vector<Vector3d> kPoints = shapes::box({10, -5, 3}, {50, 15, 13}).vertices;

Pose poseOf(const Eigen::Matrix3d& R, const Vector3d& t) {
  Pose X = Pose::Identity();
  X.linear() = R;
  X.translation() = t;
  return X;
}

Eigen::Matrix3d about(const Vector3d& axis, double angleDeg) {
  return Eigen::AngleAxisd(radFromDeg(angleDeg), axis.normalized()).toRotationMatrix();
}

// check_values 1.2, K-S4 (K): 50 degrees about z through (0, 2, 0).
TEST(JointFit, OneHingeFindsItsAngle) {
  const Pose D = poseOf(about({0, 0, 1}, 50), {1.5320888862, 0.7144247806, 0});
  const JointFit fit = fitJoints({hinge({0, 2, 0}, {0, 0, 1})}, D, kPoints);
  EXPECT_NEAR(degFromRad(fit.values[0].x()), 50, 1e-7);
  EXPECT_LT(fit.misfit.mm, 1e-8);  // ten printed digits
  EXPECT_LT(fit.misfit.rad, 1e-9);
}

// check_values 1.2, K-S2 (M): between Rz(30), (1, 2, 0) and Rz(60), (2, 1, 0) lie 30 degrees about
// z through 3.3660254038 (1, 1).
TEST(JointFit, HingeBetweenTwoPlacementsTurnsByTheDifference) {
  const Pose D =
      poseOf(about({0, 0, 1}, 60), {2, 1, 0}) * poseOf(about({0, 0, 1}, 30), {1, 2, 0}).inverse();
  const JointFit fit = fitJoints({hinge({3.3660254038, 3.3660254038, 0}, {0, 0, 1})}, D, kPoints);
  EXPECT_NEAR(degFromRad(fit.values[0].x()), 30, 1e-7);
  EXPECT_LT(fit.misfit.mm, 1e-8);
}

// check_values 1.3, K-I4 (K): hinge at (10, 0, 0) about z by 90 degrees takes the origin to (10,
// -10, 0).
TEST(JointFit, HingeTakesThePartsOriginWhereTheTableSays) {
  const JointFit fit = fitJoints({hinge({10, 0, 0}, {0, 0, 1})},
                                 poseOf(about({0, 0, 1}, 90), {10, -10, 0}), kPoints);
  EXPECT_NEAR(degFromRad(fit.values[0].x()), 90, 1e-9);
  EXPECT_LT(fit.misfit.mm, 1e-9);
}

// Closed form: a slide cannot turn, so a corner at distance r from the axis of a turn by a is left
// 2 r sin(a / 2) away, and the angle stays.
TEST(JointFit, WhatASlideCannotDoIsLeftAsMisfit) {
  const std::vector<Vector3d> square = shapes::box({-10, -10, 0}, {10, 10, 1}).vertices;
  const Pose D = poseOf(about({0, 0, 1}, 8), {0, 0, 5});
  const JointFit fit = fitJoints({slide({0, 0, 1})}, D, square);
  EXPECT_NEAR(fit.values[0].x(), 5, 1e-12);
  EXPECT_NEAR(fit.misfit.mm, 2 * std::hypot(10, 10) * std::sin(radFromDeg(4)), 1e-12);
  EXPECT_NEAR(degFromRad(fit.misfit.rad), 8, 1e-10);
}

// Closed form: what is across a slide's axis stays.
TEST(JointFit, SlideTakesTheShareAlongItsAxis) {
  const JointFit fit = fitJoints({slide({1, 2, 2})}, translation({3, 0, 0}), kPoints);
  EXPECT_NEAR(fit.values[0].x(), 1, 1e-12);
  EXPECT_NEAR(fit.misfit.mm, std::sqrt(8.0), 1e-12);
}

// check_values 1.1, K-R3 (S): this rotation is 120 degrees about (1, 1, 1).
TEST(JointFit, BallFindsItsRotationVector) {
  Eigen::Matrix3d R;
  R << 0, 0, 1, 1, 0, 0, 0, 1, 0;
  const Vector3d centre(5, 6, 7);
  const JointFit fit = fitJoints({ball(centre)}, poseOf(R, centre - R * centre), kPoints);
  EXPECT_LT((fit.values[0] - Vector3d::Constant(1.2091995762)).norm(), 1e-9);
  EXPECT_LT(fit.misfit.mm, 1e-12);
}

TEST(JointFit, FixedJointLeavesAllOfIt) {
  const JointFit fit = fitJoints({Joint{}}, translation({0, 0.25, 0}), kPoints);
  EXPECT_EQ(fit.values[0], JointValue::Zero());
  EXPECT_NEAR(fit.misfit.mm, 0.25, 1e-12);
}

// check_values 1.2, K-S3 (K): 70 degrees with 5 mm of slide along (1, 2, 2)/3 through (3, -1, 2).
TEST(JointFit, HingeAndSlideOnOneAxisMakeAScrew) {
  const Vector3d axis(1, 2, 2);
  const Pose D = poseOf(about(axis, 70), {1.395676630299, 0.69134125264, 6.110820432211});
  const JointFit fit = fitJoints({hinge({3, -1, 2}, axis), slide(axis)}, D, kPoints);
  EXPECT_NEAR(degFromRad(fit.values[0].x()), 70, 1e-7);
  EXPECT_NEAR(fit.values[1].x(), 5, 1e-7);
  EXPECT_LT(fit.misfit.mm, 1e-7);
}

TEST(JointFit, ChainsFindTheWayBackFromWhereTheyPutThePart) {
  constexpr unsigned kSeed = 20240611;
  std::mt19937_64 random(kSeed);
  SCOPED_TRACE("seed " + std::to_string(kSeed));
  std::uniform_real_distribution<double> angle(-3, 3);
  std::uniform_real_distribution<double> travel(-40, 40);
  const std::vector<std::vector<Joint>> chains = {
      {hinge({0, 0, 0}, {0, 0, 1}), hinge({20, 0, 0}, {0, 1, 0})},
      {slide({1, 0, 0}), slide({0, 1, 1}), hinge({5, 5, 5}, {1, 1, 0})},
      {hinge({0, 0, 0}, {1, 0, 0}), slide({0, 0, 1}), ball({30, 0, 0})},
      {hinge({0, 0, 0}, {0, 0, 1}), hinge({20, 0, 0}, {0, 0, 1}), hinge({40, 0, 0}, {0, 0, 1})},
  };
  for (int i = 0; i < 200; ++i) {
    const auto& chain = chains[static_cast<std::size_t>(i) % chains.size()];
    std::vector<JointValue> values;
    for (const Joint& joint : chain) {
      const double first = joint.type == JointType::slide ? travel(random) : angle(random);
      values.emplace_back(first, 0, 0);
      if (joint.type == JointType::ball)
        values.back() = Vector3d(first, angle(random), angle(random)) / 2;
    }
    const JointFit fit = fitJoints(chain, displacementOf(chain, values), kPoints);
    EXPECT_LT(fit.misfit.mm, 1e-6) << i;
    EXPECT_LT(fit.misfit.rad, 1e-7) << i;
  }
}

TEST(JointFit, AngleIsGivenWithinTheRange) {
  Joint joint = hinge({0, 0, 0}, {0, 0, 1});
  joint.range.min = 0;
  joint.range.max = radFromDeg(300);
  const JointFit fit = fitJoints({joint}, poseOf(about({0, 0, 1}, -90), {0, 0, 0}), kPoints);
  EXPECT_NEAR(degFromRad(fit.values[0].x()), 270, 1e-9);
}

TEST(JointFit, HalfATurnIsPositive) {
  const JointFit fit =
      fitJoints({hinge({0, 0, 0}, {0, 0, 1})}, poseOf(about({0, 0, 1}, -180), {0, 0, 0}), kPoints);
  EXPECT_NEAR(degFromRad(fit.values[0].x()), 180, 1e-9);
}

// Closed form: pan, tilt, roll and pan + 180, -tilt, roll + 180 are one and the same rotation.
TEST(JointFit, OfTwoWaysTheOneWithinTheRangesIsTaken) {
  Joint pan = hinge({0, 0, 0}, {0, 0, 1});
  Joint tilt = hinge({0, 0, 0}, {0, 1, 0});
  Joint roll = hinge({0, 0, 0}, {0, 0, 1});
  const std::vector<JointValue> values = {
      {radFromDeg(-150), 0, 0}, {radFromDeg(-40), 0, 0}, {radFromDeg(120), 0, 0}};
  const Pose D = displacementOf(std::vector<Joint>{pan, tilt, roll}, values);
  for (const double sign : {1.0, -1.0}) {
    tilt.range.min = sign > 0 ? 0 : -kPi;
    tilt.range.max = sign > 0 ? kPi : 0;
    const JointFit fit = fitJoints({pan, tilt, roll}, D, kPoints);
    EXPECT_NEAR(degFromRad(fit.values[1].x()), sign * 40, 1e-5);
    EXPECT_LT(fit.misfit.mm, 1e-6);
  }
}

TEST(JointFit, APartOfOnePointOnTheAxisStillFindsItsAngle) {
  const JointFit fit = fitJoints({hinge({0, 0, 0}, {0, 0, 1})},
                                 poseOf(about({0, 0, 1}, 30), {0, 0, 0}), {Vector3d(0, 0, 4)});
  EXPECT_NEAR(degFromRad(fit.values[0].x()), 30, 1e-9);
}

TEST(JointFit, AnEmptyChainIsTheCallersMistake) {
  EXPECT_THROW(fitJoints({}, Pose::Identity(), kPoints), std::invalid_argument);
}

// check_values 1.2, K-S3 (K).
TEST(JointsFromScrew, TurnWithTravelGivesBothOnOneAxis) {
  const Pose D = poseOf(about({1, 2, 2}, 70), {1.395676630299, 0.69134125264, 6.110820432211});
  const std::vector<Joint> joints = jointsFromScrew("lid", PartId{3}, D);
  ASSERT_EQ(joints.size(), 2u);
  EXPECT_EQ(joints[0].name, "lid turn");
  EXPECT_EQ(joints[0].type, JointType::hinge);
  EXPECT_EQ(joints[0].child, PartId{3});
  EXPECT_FALSE(joints[0].parent.has_value());
  EXPECT_LT((joints[0].through - Vector3d(22, -19, 8) / 9).norm(), 1e-9);
  EXPECT_LT((joints[0].along - Vector3d(1, 2, 2) / 3).norm(), 1e-9);
  EXPECT_EQ(joints[1].name, "lid travel");
  EXPECT_EQ(joints[1].type, JointType::slide);
  EXPECT_LT((joints[1].along - joints[0].along).norm(), 1e-12);
}

// check_values 1.2, K-S1 (S): a quarter turn about x through (0, -1.5, 1.5), no slide.
TEST(JointsFromScrew, PureTurnGivesAHinge) {
  Eigen::Matrix3d R;
  R << 1, 0, 0, 0, 0, -1, 0, 1, 0;
  const std::vector<Joint> joints = jointsFromScrew("lid", PartId{0}, poseOf(R, {0, 0, 3}));
  ASSERT_EQ(joints.size(), 1u);
  EXPECT_EQ(joints[0].type, JointType::hinge);
  EXPECT_LT((joints[0].through - Vector3d(0, -1.5, 1.5)).norm(), 1e-9);
  EXPECT_LT((joints[0].along - Vector3d(1, 0, 0)).norm(), 1e-9);
}

// check_values 1.2, K-S5 (K).
TEST(JointsFromScrew, PureTravelGivesASlide) {
  const std::vector<Joint> joints = jointsFromScrew("lid", PartId{0}, translation({0, 0, 7}));
  ASSERT_EQ(joints.size(), 1u);
  EXPECT_EQ(joints[0].type, JointType::slide);
  EXPECT_EQ(joints[0].along, Vector3d(0, 0, 1));
}

TEST(JointsFromScrew, NoMotionNeedsNoJoint) {
  EXPECT_TRUE(jointsFromScrew("lid", PartId{0}, Pose::Identity()).empty());
}

TEST(JointsFromScrew, TheJointsMakeTheDisplacement) {
  constexpr unsigned kSeed = 7;
  std::mt19937_64 random(kSeed);
  SCOPED_TRACE("seed " + std::to_string(kSeed));
  for (int i = 0; i < 100; ++i) {
    const Pose D = shapes::randomPose(random, 50);
    const JointFit fit = fitJoints(jointsFromScrew("lid", PartId{0}, D), D, kPoints);
    EXPECT_LT(fit.misfit.mm, 1e-6) << i;
  }
}

}  // namespace
}  // namespace swingroom
