// The least gap with play: closed forms, and every case of a random chain against plain distances.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "core/mesh/closest_points.h"
#include "core/print/printed/play_search.h"
#include "tests/core/print/print_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

/// An arm of two plates before a wall at x = 80: the first turns about z at the origin, the second
/// about z at the first one's end, and both straighten towards the wall.
Mechanism armBeforeWall() {
  Mechanism mechanism;
  mechanism.parts().requiredGapMm = 0.2;
  const PartId wall = mechanism.addPart("wall", box({80, -40, -10}, {84, 60, 10}));
  const PartId upper = mechanism.addPart("upper", box({0, -4, -3}, {40, 4, 3}));
  const PartId fore = mechanism.addPart("fore", box({40, -4, -3}, {78, 4, 3}));
  const JointId first = mechanism.addHinge(upper, wall, Vector3d::Zero(), Vector3d::UnitZ());
  mechanism.addHinge(fore, upper, {40, 0, 0}, Vector3d::UnitZ());
  mechanism.addStep(first, deg(50));
  return mechanism;
}

PlayedLeast leastOfArm(const PrintFixture& fixture) {
  const PlayedPair pair{&fixture.assembly, &fixture.geometry, &fixture.plays, PartId{0}, PartId{2}};
  WorkMonitor monitor;
  return playedLeast(pair, fixture.ways.front(), {0, 10}, monitor).value();
}

// The plate ends at 78: its farthest corner is at hypot(78, 4), and passes y = 0, so that 80 -
// hypot(78, 4) is the least gap; travels add up, for both joints can be off straight towards the
// wall.
TEST(PlaySearch, TravelsAlongAChainAddUp) {
  PrintFixture fixture(armBeforeWall());
  fixture.plays[0].asPrinted.radialMm = 0.25;
  fixture.plays[1].asPrinted.radialMm = 0.5;
  const double left = 80 - std::hypot(78, 4) - 0.75;
  const PlayedLeast least = leastOfArm(fixture);
  EXPECT_LE(least.lowerMm, left + 1e-9);
  EXPECT_GE(least.lowerMm, left - 0.03);
}

TEST(PlaySearch, NothingNearIsToldByHowFarItWasAsked) {
  PrintFixture fixture(armBeforeWall());
  const PlayedPair pair{&fixture.assembly, &fixture.geometry, &fixture.plays, PartId{0}, PartId{2}};
  WorkMonitor monitor;
  const auto least = playedLeast(pair, fixture.ways.front(), {0, 1.5}, monitor);
  ASSERT_TRUE(least.has_value());
  EXPECT_EQ(least->lowerMm, 1.5);
  EXPECT_FALSE(least->instant.has_value());
}

double plainDistance(const TriangleMesh& a, const TriangleMesh& b, const Pose& X_AB) {
  double least = 1e300;
  for (const Triangle& s : a.triangles) {
    for (const Triangle& t : b.triangles) {
      const TriangleCorners onA{a.vertices[s[0]], a.vertices[s[1]], a.vertices[s[2]]};
      const TriangleCorners onB{X_AB * b.vertices[t[0]], X_AB * b.vertices[t[1]],
                                X_AB * b.vertices[t[2]]};
      least = std::min(least, closestBetweenTriangles(onA, onB).distanceMm);
    }
  }
  return least;
}

/// A joint off by a random share of its play: some of the travel and the rest of the tilt.
Pose randomOff(const PlayFigures& play, const Vector3d& middle, std::mt19937& random) {
  std::uniform_real_distribution<double> angle(-kPi, kPi), share(0, 1), sign(-1, 1);
  const double toTilt = share(random), across = angle(random), about = angle(random);
  const Vector3d move((1 - toTilt) * play.radialMm * std::cos(across),
                      (1 - toTilt) * play.radialMm * std::sin(across),
                      sign(random) * play.axialMm.value_or(0));
  return Eigen::Translation3d(middle + move) *
         Eigen::AngleAxisd(toTilt * play.tiltRad, Vector3d(std::cos(about), std::sin(about), 0)) *
         Eigen::Translation3d(-middle);
}

// No case may be nearer than the bound: 4000 instants with both joints off at random.
TEST(PlaySearch, NoCaseIsNearerThanTheBound) {
  constexpr unsigned kSeed = 20261127;
  std::cout << "seed " << kSeed << "\n";
  std::mt19937 random(kSeed);
  PrintFixture fixture(armBeforeWall());
  fixture.plays[0].asPrinted = {0.2, 0.02, 0.15};
  fixture.plays[1].asPrinted = {0.3, 0.03, std::nullopt};
  const PlayedLeast least = leastOfArm(fixture);
  std::uniform_real_distribution<double> instants(0, 1);
  double nearest = 1e300;
  for (int i = 0; i < 4000; ++i) {
    const Configuration standing =
        configurationAt(fixture.assembly, fixture.ways.front(), instants(random));
    const std::vector<Pose> D = displacementsOf(fixture.assembly, standing);
    const Pose off0 = randomOff(fixture.plays[0].asPrinted, Vector3d::Zero(), random);
    const Pose off1 = randomOff(fixture.plays[1].asPrinted, {40, 0, 0}, random);
    // All parts are modelled in the world's frame, and both hinges are along z.
    const Pose X_AB = D[1] * off0 * D[1].inverse() * D[2] * off1;
    const double gap = plainDistance(*fixture.assembly.part(PartId{0}).mesh,
                                     *fixture.assembly.part(PartId{2}).mesh, X_AB);
    EXPECT_GE(gap, least.lowerMm - 1e-9);
    nearest = std::min(nearest, gap);
  }
  // It is a bound that is of use: the nearest of so many is not far above.
  EXPECT_LT(nearest, least.lowerMm + 0.5);
}

}  // namespace
}  // namespace swingroom
