// Check values, section 2.4 "Gap through a motion", rows M-1 to M-9: closed forms (status K), run
// through the whole check on closed meshes. Round parts are facets with corners on the circle;
// where one is the nearest feature its sagitta is the stated error.
#include <gtest/gtest.h>

#include <cmath>

#include "core/motion/travel.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

constexpr double kResolutionMm = 0.01;
constexpr double kEndsWithin = 1e-4;  // What a check promises for the ends of a stretch.
constexpr double kDepthWithinMm = 0.02;

/// The bracket holds the true value and is as narrow as promised.
void expectBracket(const GapBracket& gap, double trueMm, double errorMm = 1e-6) {
  ASSERT_TRUE(gap.upperMm.has_value());
  EXPECT_LE(gap.lowerMm, trueMm + errorMm);
  EXPECT_GE(*gap.upperMm, trueMm - errorMm);
  EXPECT_LE(*gap.upperMm - gap.lowerMm, kResolutionMm);
}

/// Rectangle 40 x 30 with its corner on the pivot, turned 0 to -90 degrees towards a wall at
/// `wallX`.
Mechanism cornerPastWall(double wallX, double requiredMm) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({wallX, -100, -5}, {wallX + 10, 100, 15}));
  const PartId plate = mechanism.addPart("plate", box({0, 0, 0}, {40, 30, 10}));
  mechanism.parts().requiredGapMm = requiredMm;
  mechanism.addStep(mechanism.addHinge(plate, wall, Vector3d::Zero(), Vector3d::UnitZ()), deg(-90));
  return mechanism;
}

TEST(MotionReference, M1CornerPassesWallAtTwoThoughBothEndPosesAreFar) {
  const PairResult pair = cornerPastWall(52, 1.0).checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clear);
  expectBracket(pair.gap, 2.0);
  EXPECT_NEAR(*pair.gap.upperMm, 2.0, 1e-3);
  EXPECT_NEAR(*pair.gap.instant * 90, 36.8698976, 0.01);
  EXPECT_NEAR(pair.modes[0].lowerMm, 2.5, 1e-9) << "12 is farther than matters: required gap + 1.5";
  EXPECT_FALSE(pair.modes[0].upperMm.has_value());
  EXPECT_FALSE(pair.modes[1].upperMm.has_value());
}

TEST(MotionReference, M1GapsAtSingleAnglesAreAsTabled) {
  const double table[][2] = {{0, 12},          {-10, 7.3982445}, {-20, 4.1516909}, {-30, 2.3589838},
                             {-45, 2.5025253}, {-60, 6.0192379}, {-90, 22}};
  for (const auto& [angle, gapMm] : table) {
    Mechanism mechanism;
    mechanism.parts().requiredGapMm = 30;
    const PartId wall = mechanism.addPart("wall", box({52, -100, -5}, {62, 100, 15}));
    const PartId plate = mechanism.addPart("plate", box({0, 0, 0}, {40, 30, 10}));
    const JointId hinge = mechanism.addHinge(plate, wall, Vector3d::Zero(), Vector3d::UnitZ());
    mechanism.addStep(hinge, deg(angle));
    const PairResult pair = mechanism.checkFirstPair();
    ASSERT_TRUE(pair.modes[1].upperMm.has_value());
    EXPECT_NEAR(*pair.modes[1].upperMm, gapMm, 5e-7 + 1e-6)
        << angle;  // Seven decimals; engines agree to 1e-6.
    EXPECT_NEAR(pair.modes[1].lowerMm, gapMm, 5e-7 + 2e-6) << angle;
  }
}

TEST(MotionReference, M2WallThreeNearerIsHitOneDeepBetweenTheStatedAngles) {
  const PairResult pair = cornerPastWall(49, 0.3).checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clash);
  const double half = degFromRad(std::acos(49.0 / 50.0));  // 11.4783
  const Stretch* clash = nullptr;
  for (const Stretch& stretch : pair.stretches) {
    if (stretch.verdict == Verdict::clash) clash = &stretch;
  }
  ASSERT_NE(clash, nullptr);
  EXPECT_NEAR(clash->from, (36.8698976 - half) / 90, kEndsWithin);
  EXPECT_NEAR(clash->to, (36.8698976 + half) / 90, kEndsWithin);
  ASSERT_TRUE(clash->depthMm.has_value());
  EXPECT_NEAR(*clash->depthMm, 1.0, kDepthWithinMm);
  EXPECT_NEAR(*clash->deepestAt * 90, 36.8698976,
              0.5);  // 1 - cos: 0.002 mm of depth at half a degree.
  EXPECT_NEAR(clash->point_W->x(), 50.0, kDepthWithinMm);
  EXPECT_EQ(clash->mover, JointId{0});
  EXPECT_EQ(pair.gap.lowerMm, 0);
  EXPECT_EQ(pair.gap.upperMm, 0);
}

/// Rectangle 40 x 20 turning about its centre between walls at y = -width/2 and y = width/2.
Mechanism turningInSlot(double width, double toDeg, double requiredMm) {
  Mechanism mechanism;
  const auto lower = box({-60, -width / 2 - 5, -5}, {60, -width / 2, 15});
  const auto upper = box({-60, width / 2, -5}, {60, width / 2 + 5, 15});
  const PartId slot = mechanism.addPart("slot", shapes::joined({lower, upper}));
  const PartId bar = mechanism.addPart("bar", box({-20, -10, 0}, {20, 10, 10}));
  mechanism.parts().requiredGapMm = requiredMm;
  mechanism.addStep(mechanism.addHinge(bar, slot, Vector3d::Zero(), Vector3d::UnitZ()), deg(toDeg));
  return mechanism;
}

TEST(MotionReference, M3BarInSlotOfItsLengthIsFreeToTheStatedAngleAndTouchesAtNinety) {
  const PairResult pair = turningInSlot(40, 90, 0.0).checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clash);
  ASSERT_EQ(pair.stretches.size(), 1u);
  EXPECT_NEAR(pair.stretches[0].from, 36.8698976 / 90, kEndsWithin);
  EXPECT_NEAR(pair.stretches[0].to, 1.0, kEndsWithin) << "at 90 degrees it just touches";
}

TEST(MotionReference, M3SlotOf46LeavesTheStatedGapEachSide) {
  const PairResult pair = turningInSlot(46, 180, 0.3).checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clear);
  expectBracket(pair.gap, 0.6393202);
}

/// Bar from the origin along x, turned up to a round post at (30, 30). A post's facets are turned
/// so that a corner lies on the line that is touched first.
Mechanism barTowardsPost(double halfThickness, double postTurnDeg) {
  Mechanism mechanism;
  auto disc =
      shapes::moved(shapes::cylinder(5, 0, 10, 720),
                    rotationAbout(Vector3d::Zero(), Vector3d::UnitZ(), radFromDeg(postTurnDeg)));
  const PartId post = mechanism.addPart("post", shapes::moved(disc, translation({30, 30, 0})));
  const PartId bar = mechanism.addPart("bar", box({0, -halfThickness, 2}, {50, halfThickness, 8}));
  mechanism.parts().requiredGapMm = 0;
  mechanism.addStep(mechanism.addHinge(bar, post, Vector3d::Zero(), Vector3d::UnitZ()), deg(90));
  return mechanism;
}

TEST(MotionReference, M4BarOfHalfThicknessTwoMeetsTheDiscBetweenTheStatedAngles) {
  const PairResult pair = barTowardsPost(2, 0).checkFirstPair();
  ASSERT_EQ(pair.stretches.size(), 1u);
  // Facets of 0.5 degrees: sagitta 4.8e-5 mm at 42 mm, 6e-5 degrees.
  EXPECT_NEAR(pair.stretches[0].from * 90, 35.5032545, 90 * kEndsWithin + 1e-3);
  EXPECT_NEAR(pair.stretches[0].to * 90, 54.4967455, 90 * kEndsWithin + 1e-3);
}

TEST(MotionReference, M4ThinBarMeetsTheDiscAtTheStatedAngle) {
  // A line has no solid; a bar of half thickness t meets it at 45 - asin((5 + t) / 42.4264), and
  // the stated 38.2318986 is its limit. t = 1e-3.
  const PairResult pair = barTowardsPost(1e-3, 0).checkFirstPair();
  ASSERT_EQ(pair.stretches.size(), 1u);
  const double distance = 30 * std::sqrt(2.0);
  EXPECT_NEAR(pair.stretches[0].from * 90, 45 - degFromRad(std::asin(5.001 / distance)),
              90 * kEndsWithin + 1e-3);
  EXPECT_NEAR(pair.stretches[0].from * 90, 38.2318986, 90 * kEndsWithin + 3e-3);
}

TEST(MotionReference, M5CapsuleTurnsTwoDeepIntoTheBall) {
  Mechanism mechanism;
  const PartId ball =
      mechanism.addPart("ball", shapes::moved(shapes::sphere(4, 5), translation({30, 20, 5})));
  const PartId arm = mechanism.addPart("capsule", shapes::capsule(3, 50, 128));
  mechanism.parts().requiredGapMm = 0;
  mechanism.addStep(mechanism.addHinge(arm, ball, Vector3d::Zero(), Vector3d::UnitZ()), deg(60));
  const PairResult pair = mechanism.checkFirstPair();
  ASSERT_EQ(pair.stretches.size(), 1u);
  const Stretch& clash = pair.stretches[0];
  // Ball of 20480 facets: edges of 0.15 mm, sagitta 0.15^2 / (8 * 4) * 4/3 = 0.001; capsule:
  // 0.0009.
  const double facetsMm = 0.003;
  const double slope =
      radFromDeg(1) * 36;  // mm a degree at radius 36, times sin of the approach below.
  EXPECT_NEAR(clash.from * 60, 25.8809491, 60 * kEndsWithin + facetsMm / (slope * 0.5));
  EXPECT_NEAR(clash.to * 60, 41.4991859, 60 * kEndsWithin + facetsMm / (slope * 0.5));
  EXPECT_NEAR(*clash.depthMm, 2.0, kDepthWithinMm);
  EXPECT_NEAR(*clash.deepestAt * 60, 33.6900675, 1.5);  // 36 (1 - cos 1.5 deg) = 0.012 mm.
}

TEST(MotionReference, M6TipsOfTwoSwingingArmsMeetAtTheStatedAngle) {
  // Arms that end in a point on the axis line, so that their length is exact and their thickness
  // does not count.
  const auto arm = [](double x, double towards) {
    std::vector<Eigen::Vector2d> outline = {{x, 0}, {x + towards * 1, -1}, {x + towards * 45, 0}};
    if (towards < 0) std::swap(outline[0], outline[2]);
    return shapes::prism(outline, 0, 2);
  };
  Mechanism mechanism;
  const PartId left = mechanism.addPart("left", arm(0, 1));
  const PartId right = mechanism.addPart("right", arm(80, -1));
  mechanism.parts().requiredGapMm = 0;
  const JointId leftHinge = mechanism.addHinge(left, {}, {0, 0, 0}, Vector3d::UnitZ());
  const JointId rightHinge = mechanism.addHinge(right, {}, {80, 0, 0}, -Vector3d::UnitZ());
  // Start open at 60 degrees, where they are apart, and close to 20.
  for (const auto& [part, hinge] : {std::pair(left, leftHinge), std::pair(right, rightHinge)}) {
    const Joint& joint = mechanism.joint(hinge);
    auto& mesh = mechanism.parts().parts[part.index].mesh;
    mesh =
        std::make_shared<const TriangleMesh>(shapes::moved(*mesh, displacementOf(joint, deg(60))));
  }
  mechanism.addStep({{leftHinge, deg(-40)}, {rightHinge, deg(-40)}});
  const PairResult pair = mechanism.checkFirstPair();
  ASSERT_EQ(pair.stretches.size(), 1u);
  EXPECT_NEAR(60 - 40 * pair.stretches[0].from, 27.2660445, 40 * kEndsWithin);
}

TEST(MotionReference, M7SlidingTowardsAWallTheGapFallsToItsLeastAtTheEnd) {
  Mechanism mechanism;
  const PartId wall = mechanism.addPart("wall", box({30, -10, -10}, {35, 10, 10}));
  const PartId slider = mechanism.addPart("slider", box({0, -3, -3}, {10, 3, 3}));
  mechanism.addStep(mechanism.addSlide(slider, wall, Vector3d::UnitX()), {19, 0, 0});
  const PairResult pair = mechanism.checkFirstPair();
  EXPECT_EQ(pair.verdict, Verdict::clear);
  expectBracket(pair.gap, 1.0);
  EXPECT_EQ(*pair.gap.instant, 1.0);
}

TEST(MotionReference, M8ThinBarPastThinPostIsFoundWithinItsStatedWindow) {
  // Bar of thickness 1 in x-y, post of diameter 1 at radius 45: contact over 2 asin(1/45)
  // = 2.5466887 degrees.
  Mechanism mechanism;
  const double at = radFromDeg(101.3);
  const auto post = shapes::moved(shapes::cylinder(0.5, 0, 10, 360),
                                  translation({45 * std::cos(at), 45 * std::sin(at), 0}));
  const PartId fixed = mechanism.addPart("post", post);
  const PartId bar = mechanism.addPart("bar", box({0, -0.5, 2}, {60, 0.5, 8}));
  mechanism.parts().requiredGapMm = 0;
  mechanism.addStep(mechanism.addHinge(bar, fixed, Vector3d::Zero(), Vector3d::UnitZ()), deg(170));
  const PairResult pair = mechanism.checkFirstPair();
  ASSERT_EQ(pair.stretches.size(), 1u);
  const double width = degFromRad(2 * std::asin(1.0 / 45));
  EXPECT_NEAR(width, 2.5466887, 1e-7);
  EXPECT_NEAR((pair.stretches[0].to - pair.stretches[0].from) * 170, width, 2 * 170 * kEndsWithin);
  EXPECT_NEAR(0.5 * (pair.stretches[0].to + pair.stretches[0].from) * 170, 101.3,
              170 * kEndsWithin);
}

TEST(MotionReference, M9TravelOfAPointIsBoundedByReachTimesAngle) {
  // Radius 50, 5 degrees: 4.3633 mm of arc; the sag between samples, 50 (1 - cos 2.5 deg) =
  // 0.0475889, is what a bound of second order (half the acceleration times the half width squared)
  // may be off by.
  Mechanism mechanism;
  const PartId still = mechanism.addPart("still", box({-1, -1, -1}, {1, 1, 1}));
  const PartId arm = mechanism.addPart("arm", box({49, -1, -1}, {50, 1, 1}));
  mechanism.addStep(mechanism.addHinge(arm, still, Vector3d::Zero(), Vector3d::UnitZ()), deg(5));
  const Assembly assembly = mechanism.assembly();
  const Sequence sequence = mechanism.sequence();
  const RelativeMotion motion(assembly, sequence.steps[0], still, arm);
  const MotionAtInstant middle = motion.at(0.5);
  const TravelBounds bounds(middle, 0.5);
  const Vector3d tip = middle.X_AB * Vector3d(50, 0, 0);
  EXPECT_NEAR(2 * bounds.travelMm(tip, 0), 4.3633, 5e-5);
  EXPECT_GE(bounds.bendMm(tip, 0), 0.0475889);
  EXPECT_LE(bounds.bendMm(tip, 0), 0.0475889 * 1.01);
}

}  // namespace
}  // namespace swingroom
