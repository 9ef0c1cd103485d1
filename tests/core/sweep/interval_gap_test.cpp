#include "core/sweep/interval_gap.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/proximity/gap.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

JointValue uniformValue(std::mt19937_64& random, double most) {
  return {std::uniform_real_distribution<double>(-most, most)(random), 0, 0};
}

// Judge: FCL at 41 instants of the interval, itself held against CGAL in tests/judge.
TEST(IntervalGap, BoundsHoldAtEveryInstantOfRandomMotions) {
  constexpr std::uint64_t kSeed = 20261125;
  RecordProperty("seed", std::to_string(kSeed));
  std::mt19937_64 random(kSeed);
  int proven = 0;
  for (int round = 0; round < 60; ++round) {
    const auto direction = [&] { return Vector3d(shapes::randomPose(random, 1).linear().col(0)); };
    const auto place = [&] { return Vector3d(shapes::randomPose(random, 20).translation()); };
    Mechanism mechanism;
    const TriangleMesh a = shapes::moved(shapes::torus(10, 4, 14, 9), shapes::randomPose(random, 25));
    const TriangleMesh b = shapes::moved(shapes::capsule(4, 15, 12), shapes::randomPose(random, 25));
    const PartId first = mechanism.addPart("first", a);
    const PartId middle = mechanism.addPart("middle", shapes::box({0, 0, 0}, {1, 1, 1}));
    const PartId last = mechanism.addPart("last", b);
    const JointId hinge = mechanism.addHinge(first, middle, place(), direction());
    const JointId slide = mechanism.addSlide(first, middle, direction());
    const JointId ball = mechanism.addBall(last, middle, place());
    const JointId outer = mechanism.addHinge(last, middle, place(), direction());
    mechanism.addStep({{hinge, uniformValue(random, 2)},
                       {slide, uniformValue(random, 30)},
                       {ball, 2 * direction()},
                       {outer, uniformValue(random, 2)}});
    const Assembly assembly = mechanism.assembly();
    const Sequence sequence = mechanism.sequence();
    const RelativeMotion motion(assembly, sequence.steps[0], first, last);
    const BoundingTree treeA(a), treeB(b);
    const GapModel modelA(a), modelB(b);
    for (const double halfWidth : {0.1, 0.02, 0.003}) {
      const double middlePart = std::uniform_real_distribution<double>(0.1, 0.9)(random);
      const MotionAtInstant at = motion.at(middlePart);
      const double trueMiddle = gapBetween(modelA, modelB, at.X_AB).gapMm;
      const IntervalGap gap = intervalGap(treeA, treeB, at, halfWidth, {0.5 * trueMiddle, 1000});
      EXPECT_NEAR(gap.middleMm, trueMiddle, 1e-9 * (1 + trueMiddle));
      if (gap.lowerMm >= 0.5 * trueMiddle && trueMiddle > 0) ++proven;
      for (int k = -20; k <= 20; ++k) {
        const Pose X_AB = motion.at(middlePart + halfWidth * k / 20).X_AB;
        const double here = gapBetween(modelA, modelB, X_AB).gapMm;
        ASSERT_LE(gap.lowerMm, here + 1e-9) << "round " << round << ", half width " << halfWidth << ", k " << k;
        ASSERT_GE(gap.upperMm, here - 1e-9) << "round " << round << ", half width " << halfWidth << ", k " << k;
      }
    }
  }
  EXPECT_GT(proven, 40) << "bounds that prove nothing are no bounds";
}

// A plate that turns about z over another, 0.4 mm above it: no point moves along z, so one look proves it all.
TEST(IntervalGap, FlatFacesThatSlideOverEachOtherAreProvenInOneInterval) {
  Mechanism mechanism;
  const TriangleMesh lower = shapes::box({-20, -20, -3}, {20, 20, 0});
  const TriangleMesh upper = shapes::box({-5, -60, 0.4}, {5, 60, 3});
  const PartId a = mechanism.addPart("lower", lower);
  const PartId b = mechanism.addPart("upper", upper);
  mechanism.addStep(mechanism.addHinge(b, a, Vector3d::Zero(), Vector3d::UnitZ()), {kPi, 0, 0});
  const Assembly assembly = mechanism.assembly();
  const Sequence sequence = mechanism.sequence();
  const RelativeMotion motion(assembly, sequence.steps[0], a, b);
  const IntervalGap gap = intervalGap(BoundingTree(lower), BoundingTree(upper), motion.at(0.5), 0.5, {0.399999, 10});
  EXPECT_GE(gap.lowerMm, 0.399999);
  EXPECT_NEAR(gap.middleMm, 0.4, 1e-12);
}

TEST(IntervalGap, SurfaceWithoutTrianglesIsInfinitelyFar) {
  const IntervalGap gap = intervalGap(BoundingTree(TriangleMesh{}), BoundingTree(shapes::box({0, 0, 0}, {1, 1, 1})),
                                      MotionAtInstant{}, 0.5, {1, 1});
  EXPECT_TRUE(std::isinf(gap.lowerMm));
  EXPECT_FALSE(gap.found);
}

}  // namespace
}  // namespace swingroom
