// Where parts stand when joints move. Closed forms; tolerance 1e-12: rounding of chains of numbers
// below 100.
#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "core/assembly/assembly.h"

namespace swingroom {
namespace {

constexpr double kTolerance = 1e-12;

Joint jointOf(JointType type, std::optional<PartId> parent, PartId child, const Vector3d& through,
              const Vector3d& along) {
  Joint joint;
  joint.type = type;
  joint.parent = parent;
  joint.child = child;
  joint.through = through;
  joint.along = along;
  return joint;
}

Assembly assemblyOf(std::size_t partCount, std::vector<Joint> joints) {
  AssemblyParts parts;
  parts.parts.resize(partCount);
  parts.joints = std::move(joints);
  return Assembly(parts);
}

void expectNear(const Vector3d& actual, const Vector3d& expected) {
  EXPECT_LE((actual - expected).cwiseAbs().maxCoeff(), kTolerance)
      << "actual " << actual.transpose() << ", expected " << expected.transpose();
}

const Vector3d kX(1, 0, 0), kY(0, 1, 0), kZ(0, 0, 1);

TEST(JointDisplacement, HingeTurnsRightHandedAboutItsLine) {
  const Joint joint = jointOf(JointType::hinge, std::nullopt, PartId{0}, {10, 0, 7}, kZ);
  expectNear(displacementOf(joint, {radFromDeg(90), 0, 0}) * Vector3d(13, 0, 1), {10, 3, 1});
}

TEST(JointDisplacement, SlideTravelsAlongItsAxisOnly) {
  const Joint joint = jointOf(JointType::slide, std::nullopt, PartId{0}, {10, 0, 7}, {0, 0.6, 0.8});
  const Pose D = displacementOf(joint, {5, 0, 0});
  EXPECT_EQ(D.linear(), Eigen::Matrix3d::Identity());
  expectNear(D.translation(), {0, 3, 4});
}

TEST(JointDisplacement, BallTurnsAboutItsCentreByItsRotationVector) {
  const Joint joint = jointOf(JointType::ball, std::nullopt, PartId{0}, {1, 2, 3}, kZ);
  const Pose D = displacementOf(joint, {0, radFromDeg(90), 0});
  expectNear(D * Vector3d(1, 2, 3), {1, 2, 3});
  expectNear(D * Vector3d(1, 2, 8), {6, 2, 3});
}

TEST(JointDisplacement, BallAtZeroAndFixedStandStill) {
  const Joint ball = jointOf(JointType::ball, std::nullopt, PartId{0}, {1, 2, 3}, kZ);
  const Joint fixed = jointOf(JointType::fixed, std::nullopt, PartId{0}, {1, 2, 3}, kZ);
  EXPECT_TRUE(displacementOf(ball, JointValue::Zero()).matrix().isIdentity(0));
  EXPECT_TRUE(displacementOf(fixed, JointValue::Zero()).matrix().isIdentity(0));
}

// A turning telescope: hinge about z through the origin, then a slide along x that the hinge
// carries. A point p of the tube comes to R(a) (p + d x).
TEST(Chain, SlideAfterHingeIsTurnedByTheHinge) {
  const Assembly assembly =
      assemblyOf(2, {jointOf(JointType::hinge, PartId{0}, PartId{1}, Vector3d::Zero(), kZ),
                     jointOf(JointType::slide, PartId{0}, PartId{1}, Vector3d::Zero(), kX)});
  Configuration at = assembly.home();
  const double angle = radFromDeg(30), length = 12;
  at.values = {{angle, 0, 0}, {length, 0, 0}};
  const Pose D = displacementsOf(assembly, at)[1];
  const double reach = 40 + length;
  expectNear(D * Vector3d(40, 0, 5), {reach * std::cos(angle), reach * std::sin(angle), 5});
}

// The other file order: the slide carries the hinge, so p comes to R(a) p + d x.
TEST(Chain, HingeAfterSlideLeavesTheSlidesDirectionAlone) {
  const Assembly assembly =
      assemblyOf(2, {jointOf(JointType::slide, PartId{0}, PartId{1}, Vector3d::Zero(), kX),
                     jointOf(JointType::hinge, PartId{0}, PartId{1}, Vector3d::Zero(), kZ)});
  Configuration at = assembly.home();
  const double angle = radFromDeg(30), length = 12;
  at.values = {{length, 0, 0}, {angle, 0, 0}};
  const Pose D = displacementsOf(assembly, at)[1];
  expectNear(D * Vector3d(40, 0, 5), {40 * std::cos(angle) + length, 40 * std::sin(angle), 5});
}

// Planar arm: links of 30 and 20 along x, hinges about z at their starts; tip at
// (30 cos a + 20 cos(a + b), 30 sin a + 20 sin(a + b)). Any text on manipulators.
TEST(Chain, ChildIsCarriedByItsParentInWhicheverOrderTheyAreListed) {
  const double a = radFromDeg(35), b = radFromDeg(-80);
  const Vector3d expected(30 * std::cos(a) + 20 * std::cos(a + b),
                          30 * std::sin(a) + 20 * std::sin(a + b), 0);
  for (const bool forearmFirst : {false, true}) {
    const PartId upper{forearmFirst ? 1u : 0u}, forearm{forearmFirst ? 0u : 1u};
    const Assembly assembly =
        assemblyOf(2, {jointOf(JointType::hinge, upper, forearm, {30, 0, 0}, kZ),
                       jointOf(JointType::hinge, std::nullopt, upper, {0, 0, 0}, kZ)});
    Configuration at = assembly.home();
    at.values = {{b, 0, 0}, {a, 0, 0}};
    expectNear(displacementsOf(assembly, at)[forearm.index] * Vector3d(50, 0, 0), expected);
  }
}

// Axes are given as everything stands at home: a second hinge about y, once the first has turned it
// by 90 degrees about z, turns about -x.
TEST(Chain, AxesAreCarriedAlong) {
  const Assembly assembly =
      assemblyOf(2, {jointOf(JointType::hinge, std::nullopt, PartId{0}, {0, 0, 0}, kZ),
                     jointOf(JointType::hinge, PartId{0}, PartId{1}, {0, 0, 0}, kY)});
  Configuration at = assembly.home();
  at.values = {{radFromDeg(90), 0, 0}, {radFromDeg(90), 0, 0}};
  const Pose D = displacementsOf(assembly, at)[1];
  expectNear(D.linear() * kY, -kX);
  expectNear(D.linear() * kX, -kZ);
}

TEST(Chain, PosesAreDisplacementsOfHomePlaces) {
  AssemblyParts parts;
  parts.parts.resize(1);
  parts.parts[0].X_WP_home = translation({3, 0, 0});
  parts.joints = {jointOf(JointType::hinge, std::nullopt, PartId{0}, {1, 0, 0}, kZ)};
  const Assembly assembly(parts);
  Configuration at = assembly.home();
  at.values[0].x() = radFromDeg(90);
  expectNear(posesOf(assembly, at)[0].translation(), {1, 2, 0});
}

/// Part 2 can hang on part 0, which turns about z, or on part 1, which slides along z.
Assembly deckAndHand() {
  return assemblyOf(3, {jointOf(JointType::hinge, std::nullopt, PartId{0}, {0, 0, 0}, kZ),
                        jointOf(JointType::slide, std::nullopt, PartId{1}, {0, 0, 0}, kZ),
                        jointOf(JointType::fixed, PartId{0}, PartId{2}, {0, 0, 0}, kZ),
                        jointOf(JointType::fixed, PartId{1}, PartId{2}, {0, 0, 0}, kZ)});
}

TEST(Mounts, APartGoesWithTheMountThatHoldsIt) {
  const Assembly assembly = deckAndHand();
  Configuration at = assembly.home();
  at.values[0].x() = radFromDeg(90);
  at.values[1].x() = 7;
  expectNear(displacementsOf(assembly, at)[2] * kX, kY);
  at.mounts[2] = 1;
  expectNear(displacementsOf(assembly, at)[2] * kX, {1, 0, 7});
  EXPECT_EQ(holdingMount(assembly, at, PartId{2})->parent, PartId{1});
}

TEST(Mounts, APartWithoutJointsHasNoneAndStandsStill) {
  const Assembly assembly = assemblyOf(1, {});
  EXPECT_EQ(holdingMount(assembly, assembly.home(), PartId{0}), nullptr);
  EXPECT_TRUE(displacementsOf(assembly, assembly.home())[0].matrix().isIdentity(0));
}

TEST(Mounts, AMountThatIsNotThereThrows) {
  const Assembly assembly = deckAndHand();
  Configuration at = assembly.home();
  at.mounts[2] = 2;
  EXPECT_THROW((void)displacementsOf(assembly, at), std::out_of_range);
}

TEST(Ring, TreesHaveNone) {
  const Assembly assembly = deckAndHand();
  EXPECT_EQ(findRing(assembly, assembly.home()), std::nullopt);
}

TEST(Ring, OfThreePartsIsFoundAndRefused) {
  const Assembly assembly =
      assemblyOf(4, {jointOf(JointType::hinge, PartId{1}, PartId{2}, {0, 0, 0}, kZ),
                     jointOf(JointType::hinge, PartId{2}, PartId{3}, {0, 0, 0}, kZ),
                     jointOf(JointType::hinge, PartId{3}, PartId{1}, {0, 0, 0}, kZ)});
  const std::optional<PartId> ring = findRing(assembly, assembly.home());
  ASSERT_TRUE(ring);
  EXPECT_GE(ring->index, 1u);
  EXPECT_THROW((void)displacementsOf(assembly, assembly.home()), std::invalid_argument);
}

// "A part that hangs, through mounts that hold, on itself": part 0 only hangs on the ring of 1
// and 2.
TEST(Ring, NamesAPartOfTheRingAndNotOneThatHangsOnIt) {
  const Assembly assembly =
      assemblyOf(3, {jointOf(JointType::hinge, PartId{1}, PartId{0}, {0, 0, 0}, kZ),
                     jointOf(JointType::hinge, PartId{1}, PartId{2}, {0, 0, 0}, kZ),
                     jointOf(JointType::hinge, PartId{2}, PartId{1}, {0, 0, 0}, kZ)});
  const std::optional<PartId> ring = findRing(assembly, assembly.home());
  ASSERT_TRUE(ring);
  EXPECT_NE(*ring, PartId{0});
}

// Parts 0 and 1 hang on each other only if 0 is on its second mount.
TEST(Ring, DependsOnTheMountsThatHold) {
  const Assembly assembly =
      assemblyOf(2, {jointOf(JointType::hinge, std::nullopt, PartId{0}, {0, 0, 0}, kZ),
                     jointOf(JointType::hinge, PartId{1}, PartId{0}, {0, 0, 0}, kZ),
                     jointOf(JointType::hinge, PartId{0}, PartId{1}, {0, 0, 0}, kZ)});
  Configuration at = assembly.home();
  EXPECT_EQ(findRing(assembly, at), std::nullopt);
  at.mounts[0] = 1;
  EXPECT_NE(findRing(assembly, at), std::nullopt);
}

}  // namespace
}  // namespace swingroom
