#include "core/mesh/ball_faces.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

// Closed form: every corner is on the ball, which is turned so that no facet lies along the axes.
TEST(BallFaces, BallIsFoundOnAnyLineThroughItsCentre) {
  const Pose X =
      translation({12, -7, 30}) * rotationAbout(kOrigin, Vector3d(2, -1, 2) / 3, radFromDeg(33));
  const TriangleMesh ball = shapes::moved(shapes::sphere(5, 4), X);
  const Vector3d along = Vector3d(1, 4, 8) / 9;
  const auto faces = ballFacesOn(ball, X.translation() - 20 * along, along);
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_TRUE(faces[0].outward);
  EXPECT_NEAR(faces[0].centreMm, 20, 1e-6);
  EXPECT_NEAR(faces[0].radiusMm, 5, 1e-6);
  EXPECT_NEAR(faces[0].greatestMm, 5, 1e-6);
  EXPECT_GT(faces[0].share, 0.9);
}

TEST(BallFaces, HollowBallIsABallAndASocket) {
  const TriangleMesh shell =
      shapes::joined({shapes::sphere(9, 4), shapes::reversed(shapes::sphere(6, 4))});
  const auto faces = ballFacesOn(shell, kOrigin, kZ);
  ASSERT_EQ(faces.size(), 2u);
  EXPECT_FALSE(faces[0].outward);
  EXPECT_NEAR(faces[0].radiusMm, 6, 1e-6);
  EXPECT_TRUE(faces[1].outward);
  EXPECT_NEAR(faces[1].radiusMm, 9, 1e-6);
}

// The corners of a cylinder or of a cone, two rings, lie on a ball as well.
TEST(BallFaces, CylinderAndConeAreNoBalls) {
  EXPECT_TRUE(ballFacesOn(shapes::cylinder(5, -3, 3, 48), kOrigin, kZ).empty());
  TriangleMesh cone = shapes::cylinder(5, -3, 3, 48);
  for (Vector3d& v : cone.vertices) {
    if (v.z() > 0) v.head<2>() *= 0.5;
  }
  EXPECT_TRUE(ballFacesOn(cone, kOrigin, kZ).empty());
}

TEST(BallFaces, BallBesideTheLineIsNotOnIt) {
  EXPECT_TRUE(ballFacesOn(shapes::sphere(5, 4), {1, 0, 0}, kZ).empty());
}

TEST(BallFaces, LineMustHaveAUnitVector) {
  EXPECT_THROW(ballFacesOn(shapes::sphere(5, 2), kOrigin, 2 * kZ), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
