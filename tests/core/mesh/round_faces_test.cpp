#include "core/mesh/round_faces.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

std::vector<RoundFace> facesAboutZ(const TriangleMesh& mesh) {
  return roundFacesAbout(mesh, kOrigin, kZ);
}

// Closed form: corners at the radius, middles of facets at radius - sagitta.
TEST(RoundFaces, TubeIsAHoleInsideAndAPinOutside) {
  const auto faces = facesAboutZ(shapes::tube(5, 2, -3, 7, 32));
  ASSERT_EQ(faces.size(), 2u);
  EXPECT_FALSE(faces[0].outward);
  EXPECT_NEAR(faces[0].radiusMm, 2, 1e-12);
  EXPECT_NEAR(faces[0].leastMm, 2 - shapes::sagitta(2, 32), 1e-12);
  EXPECT_TRUE(faces[1].outward);
  EXPECT_NEAR(faces[1].greatestMm, 5, 1e-12);
  for (const RoundFace& face : faces) {
    EXPECT_NEAR(face.fromMm, -3, 1e-12);
    EXPECT_NEAR(face.toMm, 7, 1e-12);
    EXPECT_NEAR(face.coverageRad, 2 * kPi, 1e-9);
  }
}

TEST(RoundFaces, AreFoundAboutAnyLineInSpace) {
  const Pose X =
      translation({30, -20, 11}) * rotationAbout(kOrigin, Vector3d(2, -1, 2) / 3, radFromDeg(71));
  const TriangleMesh mesh = shapes::moved(shapes::cylinder(3, 0, 8, 24), X);
  const auto faces = roundFacesAbout(mesh, X * Vector3d(0, 0, 2), X.linear() * kZ);
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_NEAR(faces[0].radiusMm, 3, 1e-9);
  EXPECT_NEAR(faces[0].fromMm, -2, 1e-9);
  EXPECT_NEAR(faces[0].toMm, 6, 1e-9);
}

TEST(RoundFaces, SteppedPinHasOneFaceForEachRadius) {
  const auto faces =
      facesAboutZ(shapes::joined({shapes::cylinder(2, 0, 4, 32), shapes::cylinder(3, 4, 10, 32)}));
  ASSERT_EQ(faces.size(), 2u);
  EXPECT_NEAR(faces[0].radiusMm, 2, 1e-12);
  EXPECT_NEAR(faces[0].toMm, 4, 1e-12);
  EXPECT_NEAR(faces[1].radiusMm, 3, 1e-12);
  EXPECT_NEAR(faces[1].fromMm, 4, 1e-12);
}

TEST(RoundFaces, TwoCheeksWithOneBoreAreTwoFaces) {
  const auto faces = facesAboutZ(
      shapes::joined({shapes::tube(6, 2.2, -8, -5, 32), shapes::tube(6, 2.2, 5, 8, 32)}));
  int bores = 0;
  for (const RoundFace& face : faces) bores += !face.outward;
  EXPECT_EQ(bores, 2);
}

// Every second facet taken away: what is left covers half the turn.
TEST(RoundFaces, CoverageCountsOnlyWhatIsThere) {
  TriangleMesh mesh = shapes::cylinder(3, 0, 8, 36);
  mesh.triangles.resize(72);  // The side: two triangles a facet come first.
  TriangleMesh half{mesh.vertices, {}};
  for (std::size_t t = 0; t < 72; t += 4) {
    half.triangles.push_back(mesh.triangles[t]);
    half.triangles.push_back(mesh.triangles[t + 1]);
  }
  const auto faces = facesAboutZ(half);
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_NEAR(faces[0].coverageRad, kPi, 0.1);
}

// Facets of a coarse round are at most 45 degrees wide here (8 sides); a square's are 90 and a
// hexagon's 60.
TEST(RoundFaces, SquareAndHexagonAreNotRound) {
  EXPECT_TRUE(facesAboutZ(shapes::cylinder(5, 0, 10, 4)).empty());
  EXPECT_TRUE(facesAboutZ(shapes::cylinder(5, 0, 10, 6)).empty());
  EXPECT_EQ(facesAboutZ(shapes::cylinder(5, 0, 10, 8)).size(), 1u);
}

TEST(RoundFaces, EndFacesBallsAndCylindersAboutOtherLinesAreNotRoundAboutThisOne) {
  EXPECT_TRUE(
      facesAboutZ(shapes::moved(shapes::cylinder(3, 0, 8, 32), translation({1, 0, 0}))).empty());
  const Pose lying = rotationAbout(kOrigin, Vector3d::UnitX(), kPi / 2);
  EXPECT_TRUE(facesAboutZ(shapes::moved(shapes::cylinder(3, 0, 8, 32), lying)).empty());
}

// The axis from two placements is off by the rounding of the files and the maker's hand.
TEST(RoundFaces, AxisMayBeOffByTheTolerance) {
  const auto faces = roundFacesAbout(shapes::tube(5, 2, -3, 7, 32), {0.02, 0, 0}, kZ);
  ASSERT_EQ(faces.size(), 2u);
  EXPECT_NEAR(faces[0].radiusMm, 2, 0.02);
}

TEST(RoundFaces, AxisMustBeAUnitVector) {
  EXPECT_THROW(roundFacesAbout(shapes::cylinder(5, 0, 10, 8), kOrigin, 2 * kZ),
               std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
