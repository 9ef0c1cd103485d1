// The judge itself against closed forms, before it judges anybody. Tolerance: the rounding of the
// inputs.
#include "tests/judge/cgal_judge.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

TriangleMesh cube(double edge) {
  return shapes::box(Vector3d::Constant(-edge / 2), Vector3d::Constant(edge / 2));
}

double judgedGap(const TriangleMesh& a, const TriangleMesh& b) {
  return std::sqrt(judge::squaredDistance(a, b));
}

// check_values D-B1, K: 1.5 - sqrt(2) / 2.
TEST(Judge, SeesTheGapOfACubeEdgeOn) {
  const Pose X = translation({2, 0, 0}) * rotationAbout({0, 0, 0}, {0, 0, 1}, radFromDeg(45));
  EXPECT_NEAR(judgedGap(cube(1), shapes::moved(cube(1), X)), 1.5 - std::sqrt(2.0) / 2, 1e-12);
}

TEST(Judge, SeesThatCrossingAndTouchingSurfacesMeet) {
  for (const double offset : {0.3, 1.0}) {
    const TriangleMesh other = shapes::moved(cube(1), translation({offset, 0.2, 0.1}));
    EXPECT_TRUE(judge::surfacesMeet(cube(1), other)) << "offset " << offset;
    EXPECT_EQ(judge::squaredDistance(cube(1), other), 0) << "offset " << offset;
  }
}

TEST(Judge, SeesNoMeetingOfSurfacesJustApart) {
  const TriangleMesh other =
      shapes::moved(cube(1), translation({std::nextafter(1.0, 2.0), 0.2, 0.1}));
  EXPECT_FALSE(judge::surfacesMeet(cube(1), other));
  EXPECT_NEAR(judgedGap(cube(1), other), std::nextafter(1.0, 2.0) - 1, 1e-18);
}

TEST(Judge, SeesTheGapOfNestedSurfacesThatDoNotMeet) {
  EXPECT_FALSE(judge::surfacesMeet(cube(10), cube(1)));
  EXPECT_NEAR(judgedGap(cube(10), cube(1)), 4.5, 1e-12);
}

TEST(Judge, TellsInsideFromOutside) {
  const TriangleMesh torus = shapes::torus(30, 10, 16, 8);
  const std::vector<Vector3d> points = {{30, 0, 0}, {0, 0, 0}, {0, 0, 50}, {40, 0, 0}};
  using enum judge::Side;
  EXPECT_EQ(judge::sidesOf(torus, points), (std::vector{inside, outside, outside, on}));
}

TEST(Judge, MeasuresFromAPointToASurface) {
  EXPECT_NEAR(judge::squaredDistance(cube(2), Vector3d(1 + 3, 1 + 4, 0)), 25, 1e-12);
  EXPECT_NEAR(judge::squaredDistance(cube(2), Vector3d(0.25, 0, 0)), 0.5625, 1e-12);
}

}  // namespace
}  // namespace swingroom
