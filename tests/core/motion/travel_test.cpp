#include "core/motion/travel.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

Vector3d randomVector(std::mt19937_64& random, double size) {
  std::uniform_real_distribution<double> within(-size, size);
  return {within(random), within(random), within(random)};
}

/// A chain of `count` hinges and slides on a part that stands still, each moved by a random amount.
Mechanism randomChain(std::mt19937_64& random, int count) {
  Mechanism mechanism;
  PartId parent = mechanism.addPart("still", shapes::box({-1, -1, -1}, {1, 1, 1}));
  std::vector<std::pair<JointId, JointValue>> moves;
  std::uniform_real_distribution<double> amount(-2, 2);
  for (int i = 0; i < count; ++i) {
    const PartId part = mechanism.addPart("link " + std::to_string(i), shapes::box({-1, -1, -1}, {1, 1, 1}));
    const Vector3d along = randomVector(random, 1).normalized();
    const bool turns = random() % 4 != 0;
    const JointId joint = turns ? mechanism.addHinge(part, parent, randomVector(random, 10), along)
                                : mechanism.addSlide(part, parent, along);
    moves.push_back({joint, {(turns ? 1 : 5) * amount(random), 0, 0}});
    parent = part;
  }
  mechanism.addStep(moves);
  return mechanism;
}

// The derivatives are held against where the points really go: positions at instants, by the poses alone.
TEST(TravelBounds, NoPointOfAChainDepartsFromThirdOrderByMoreThanTheRest) {
  std::mt19937_64 random(20261126);
  RecordProperty("seed", 20261126);
  double nearest = 0;
  for (int chain = 0; chain < 300; ++chain) {
    const Mechanism mechanism = randomChain(random, 1 + chain % 4);
    const Assembly assembly = mechanism.assembly();
    const PartId last{assembly.parts().size() - 1};
    const RelativeMotion motion(assembly, mechanism.sequence().steps[0], PartId{0}, last);
    std::uniform_real_distribution<double> width(0.005, 0.2), share(-1, 1);
    const double halfWidth = width(random);
    const MotionAtInstant middle = motion.at(0.5);
    const TravelBounds bounds(middle, halfWidth);
    const Vector3d centre_B = randomVector(random, 10);
    const double radius = 3;
    const auto rests = bounds.restsMm(middle.X_AB * centre_B, radius);
    for (int i = 0; i < 20; ++i) {
      const Vector3d p_B = centre_B + radius * randomVector(random, 1).normalized();
      const Vector3d n = randomVector(random, 1).normalized();
      const double u = i % 2 ? share(random) * halfWidth : (i % 4 ? halfWidth : -halfWidth);
      const Vector3d before = middle.X_AB * p_B, after = motion.at(0.5 + u).X_AB * p_B;
      const Vector3d told = before + u * bounds.velocityAt(before) + 0.5 * u * u * bounds.accelerationAt(before);
      const double off = std::abs(n.dot(after - told)), most = bounds.restMm(rests, n);
      ASSERT_LE(off, most + 1e-12) << "chain " << chain << ", point " << i;
      if (most > 1e-6) nearest = std::max(nearest, off / most);
    }
  }
  EXPECT_GT(nearest, 0.5);  // Near enough to the bound for a lost factor of two to show.
}

// Closed form: a point at radius r turning by w h is off its tangent by r sin(w h), which leaves r (w h)^3 / 6 at
// third order, less than (w h)^2 / 20 of it at the next.
TEST(TravelBounds, OneHingeLeavesTheCubeOfItsAngle) {
  Mechanism mechanism;
  const PartId still = mechanism.addPart("still", shapes::box({-1, -1, -1}, {1, 1, 1}));
  const PartId arm = mechanism.addPart("arm", shapes::box({49, -1, -1}, {50, 1, 1}));
  mechanism.addStep(mechanism.addHinge(arm, still, Vector3d::Zero(), Vector3d::UnitZ()), {0.4, 0, 0});
  const Assembly assembly = mechanism.assembly();
  const RelativeMotion motion(assembly, mechanism.sequence().steps[0], still, arm);
  const MotionAtInstant middle = motion.at(0.5);
  const TravelBounds bounds(middle, 0.5);
  const Vector3d tip = middle.X_AB * Vector3d(50, 0, 0);
  const Vector3d tangent = Vector3d::UnitZ().cross(tip).normalized();
  const double cube = 50 * std::pow(0.2, 3) / 6;
  EXPECT_NEAR(bounds.restMm(bounds.restsMm(tip, 0), tangent), cube, 1e-12);
  EXPECT_NEAR(tangent.dot(bounds.velocityAt(tip)), 50 * 0.4, 1e-12);
  EXPECT_NEAR(bounds.accelerationAt(tip).norm(), 50 * 0.4 * 0.4, 1e-12);
}

}  // namespace
}  // namespace swingroom
