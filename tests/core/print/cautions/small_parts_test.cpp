#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/print/cautions/outer_points.h"
#include "core/print/cautions/small_parts.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

PassAnswer fitsMetric(const TriangleMesh& mesh) {
  return fitsSmallParts(mesh, SmallPartsCylinder::metric()).fits;
}

TriangleMesh cubeOf(double edge) {
  return shapes::box({0, 0, 0}, {edge, edge, edge});
}

TriangleMesh turnedMesh(const TriangleMesh& mesh) {
  std::mt19937_64 random(7);
  return shapes::moved(mesh, shapes::randomPose(random, 30));
}

// Check values T-1, closed form; a mesh's corners are on the ball.
TEST(SmallParts, Balls) {
  EXPECT_EQ(fitsMetric(shapes::sphere(15.8, 3)), PassAnswer::yes);
  EXPECT_EQ(fitsMetric(shapes::sphere(15.9, 3)), PassAnswer::no);
}

// T-2: a cube fits if its edge is at most 31.7 / sqrt 2 = 22.415.
TEST(SmallParts, Cubes) {
  EXPECT_EQ(fitsMetric(cubeOf(22.3)), PassAnswer::yes);
  EXPECT_EQ(fitsMetric(cubeOf(22.5)), PassAnswer::no);
  EXPECT_EQ(fitsMetric(turnedMesh(cubeOf(22.3))), PassAnswer::yes);
  EXPECT_EQ(fitsMetric(turnedMesh(cubeOf(22.5))), PassAnswer::no);
}

// T-3: a needle up to 65.309 long.
TEST(SmallParts, Needles) {
  const auto needle = [](double length) {
    return turnedMesh(shapes::box({0, 0, 0}, {0.01, 0.01, length}));
  };
  EXPECT_EQ(fitsMetric(needle(65)), PassAnswer::yes);
  EXPECT_EQ(fitsMetric(needle(66)), PassAnswer::no);
}

// T-4.
TEST(SmallParts, Discs) {
  EXPECT_EQ(fitsMetric(turnedMesh(shapes::cylinder(15.8, 0, 0.5, 64))), PassAnswer::yes);
  EXPECT_EQ(fitsMetric(turnedMesh(shapes::cylinder(15.9, 0, 0.5, 64))), PassAnswer::no);
}

// T-5: an upright rod of 20 fits up to 37.1 against the deep wall.
TEST(SmallParts, UprightRod) {
  EXPECT_EQ(fitsMetric(shapes::cylinder(10, 0, 37, 32)), PassAnswer::yes);
}

// T-6: a part larger than the cylinder's 32 556 mm3 never fits.
TEST(SmallParts, LargerThanTheCylinderNeverFits) {
  EXPECT_NEAR(kPi * 15.85 * 15.85 * 41.25, 32556.1, 0.1);
  EXPECT_EQ(fitsMetric(shapes::box({0, 0, 0}, {32, 32, 32})), PassAnswer::no);
  EXPECT_EQ(fitsMetric(shapes::box({0, 0, 0}, {24, 24, 57})), PassAnswer::no);
}

// The inch values govern: a ball of 31.74 fits 31.75 and not 31.7.
TEST(SmallParts, InchesGovern) {
  const TriangleMesh ball = shapes::sphere(15.87, 3);
  EXPECT_EQ(fitsSmallParts(ball, SmallPartsCylinder::inches()).fits, PassAnswer::yes);
  EXPECT_EQ(fitsMetric(ball), PassAnswer::no);
}

// The way in which it fits is a way: every corner under the rim, in the wall, over the floor.
TEST(SmallParts, TheWitnessIsInside) {
  const TriangleMesh rod = turnedMesh(shapes::cylinder(4, 0, 52, 16));
  const SmallPartAnswer answer = fitsSmallParts(rod, SmallPartsCylinder::metric());
  ASSERT_EQ(answer.fits, PassAnswer::yes);
  ASSERT_TRUE(answer.X_CP);
  EXPECT_NEAR(
      (answer.X_CP->linear() * answer.X_CP->linear().transpose() - Eigen::Matrix3d::Identity())
          .norm(),
      0, 1e-12);
  EXPECT_NEAR(answer.X_CP->linear().determinant(), 1, 1e-12);
  for (const Vector3d& corner : rod.vertices) {
    const Vector3d p = *answer.X_CP * corner;
    EXPECT_LE(std::hypot(p.x(), p.y()), 15.85 + 1e-6);
    EXPECT_LE(p.z(), 1e-6);
    EXPECT_GE(p.z(), -(41.25 + p.x()) - 1e-6);
  }
}

// 16 CFR 1117.2 by check values 7.2.
TEST(SmallParts, BallsThroughTheHole) {
  EXPECT_EQ(passesHole(shapes::sphere(22.2, 4), 44.45), PassAnswer::yes);
  EXPECT_EQ(passesHole(shapes::sphere(22.3, 4), 44.45), PassAnswer::no);
  EXPECT_TRUE(isBallLike(shapes::sphere(22.2, 3)));
  EXPECT_FALSE(isBallLike(cubeOf(20)));
  EXPECT_FALSE(isBallLike(shapes::cylinder(10, 0, 30, 32)));
}

// Closed forms: the circle round an equilateral triangle and round an obtuse one.
TEST(LeastCircle, OfTriangles) {
  EXPECT_NEAR(leastCircle({{0, 0}, {1, 0}, {0.5, std::sqrt(0.75)}}).radius, 1 / std::sqrt(3.0),
              1e-12);
  EXPECT_NEAR(leastCircle({{0, 0}, {4, 0}, {1, 0.1}, {2, -0.3}}).radius, 2, 1e-12);
}

}  // namespace
}  // namespace swingroom
