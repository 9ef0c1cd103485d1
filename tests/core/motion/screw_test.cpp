#include "core/motion/screw.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr unsigned kScrewSeed = 20240501;

Vector3d randomUnit(std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  return Vector3d(normal(random), normal(random), normal(random)).normalized();
}

Pose displacementOf(const Screw& screw) {
  return translation(screw.slideMm * screw.axis) *
         rotationAbout(screw.point, screw.axis, screw.angleRad);
}

// Chasles: every displacement is a turn about a line and a slide along it. Tolerance: rounding of
// poses of size 100, times cot(angle / 2), which stays below 100 for nearly all of these.
TEST(Screw, GivesBackAnyDisplacement) {
  std::mt19937_64 random(kScrewSeed);
  RecordProperty("seed", kScrewSeed);
  for (int i = 0; i < 1000; ++i) {
    const Pose D = shapes::randomPose(random, 100);
    const Screw screw = screwOf(D);
    EXPECT_NEAR(screw.axis.norm(), 1, 1e-12);
    EXPECT_GE(screw.angleRad, 0);
    EXPECT_LE(screw.angleRad, kPi + 1e-12);
    EXPECT_NEAR(screw.point.dot(screw.axis), 0, 1e-9 * (1 + screw.point.norm()));
    ASSERT_TRUE(displacementOf(screw).matrix().isApprox(D.matrix(), 1e-11))
        << "seed " << kScrewSeed << ", " << i;
  }
}

// Made from a known screw, closed form. The axis of a turn by `angle` is known to 1e-16 / angle.
TEST(Screw, AxisAndAngleAreFoundFromSmallTurnsToHalfTurns) {
  std::mt19937_64 random(kScrewSeed);
  for (const double angle : {1e-7, 1e-5, 1e-3, 0.1, 1.0, 3.0, kPi - 1e-3, kPi - 1e-6}) {
    for (int i = 0; i < 50; ++i) {
      const Vector3d axis = randomUnit(random);
      const Pose D = translation(4 * axis) * rotationAbout({3, -1, 2}, axis, angle);
      const Screw screw = screwOf(D);
      EXPECT_NEAR(screw.angleRad, angle, 1e-14);
      EXPECT_LT((screw.axis - axis).norm(), 1e-14 / angle + 1e-14) << "angle " << angle;
      EXPECT_NEAR(screw.slideMm, 4, 1e-13 / angle + 1e-13) << "angle " << angle;
    }
  }
}

// Where the matrix formulas vee(R - R') / (2 sin) lose all digits.
TEST(Screw, HalfTurnAboutATiltedLineIsExactUpToTheAxisSign) {
  const Vector3d axis = Vector3d(2, -3, 6) / 7;
  const Screw screw = screwOf(translation(-2 * axis) * rotationAbout({1, 1, 1}, axis, kPi));
  const double sign = screw.axis.dot(axis) > 0 ? 1 : -1;
  EXPECT_LT((screw.axis - sign * axis).norm(), 1e-14);
  EXPECT_NEAR(screw.slideMm, -2 * sign, 1e-13);
  // The foot of the origin on the line through (1,1,1): p - (p.a) a, with p.a = 5/7.
  EXPECT_LT((screw.point - (Vector3d(1, 1, 1) - axis * 5 / 7)).norm(), 1e-13);
}

TEST(Screw, TurnBelowTheLeastAngleCountsAsAPureSlide) {
  const Screw screw = screwOf(translation({0, 3, 4}) * rotationAbout({0, 0, 0}, {0, 0, 1}, 1e-10));
  EXPECT_EQ(screw.angleRad, 0);
  EXPECT_NEAR(screw.slideMm, 5, 1e-12);
  EXPECT_LT((screw.axis - Vector3d(0, 0.6, 0.8)).norm(), 1e-9);
  EXPECT_EQ(screw.point, Vector3d(0, 0, 0));
}

TEST(Screw, OfNothingIsTheZAxisAndZeros) {
  const Screw screw = screwOf(Pose::Identity());
  EXPECT_EQ(screw.axis, Vector3d(0, 0, 1));
  EXPECT_EQ(screw.point, Vector3d(0, 0, 0));
  EXPECT_EQ(screw.angleRad, 0);
  EXPECT_EQ(screw.slideMm, 0);
}

}  // namespace
}  // namespace swingroom
