#include "core/base/transform.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/base/id.h"

namespace swingroom {
namespace {

// Closed form. Tolerances: rounding of a few operations on numbers of size 10.
TEST(Transform, TurnAboutALineKeepsItsPoints) {
  const Vector3d p(3, -1, 2), axis = Vector3d(1, 2, 2) / 3;
  const Pose X = rotationAbout(p, axis, 1.1);
  EXPECT_LT((X * p - p).norm(), 1e-14);
  EXPECT_LT((X * (p + 10 * axis) - (p + 10 * axis)).norm(), 1e-14);
}

TEST(Transform, QuarterTurnIsRightHanded) {
  const Pose X = rotationAbout({1, 0, 0}, {0, 0, 1}, radFromDeg(90));
  EXPECT_LT((X * Vector3d(2, 0, 5) - Vector3d(1, 1, 5)).norm(), 1e-14);
}

TEST(Transform, PosesWhoseInnerLettersMeetAreApplied) {
  const Pose X_WP = translation({1, 2, 3}) * rotationAbout({0, 0, 0}, {1, 0, 0}, radFromDeg(90));
  const Pose X_PC = translation({0, 1, 0});
  EXPECT_LT(((X_WP * X_PC).translation() - Vector3d(1, 2, 4)).norm(), 1e-14);
}

TEST(Transform, DegreesAndRadiansAreInverse) {
  EXPECT_DOUBLE_EQ(radFromDeg(180), kPi);
  EXPECT_DOUBLE_EQ(degFromRad(kPi / 6), 30);
}

TEST(Id, IsOrderedByItsPlaceInTheList) {
  EXPECT_LT(PartId{1}, PartId{2});
  EXPECT_EQ(PartId{3}, PartId{3});
}

}  // namespace
}  // namespace swingroom
