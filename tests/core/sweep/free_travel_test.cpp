// How far joints go until parts touch. Expected values: check values M-1 to M-7 (closed forms), and
// the README of the sample hatch_box, which derives its own.
#include "core/sweep/free_travel.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>

#include "core/files/loading/load_assembly.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using shapes::box;

constexpr double kTravelDeg =
    1e-4;  ///< A touch is told within 1e-5 mm; the arms here are 10 to 60 long.
constexpr double kTravelMm = 3e-5;

/// One assembly, asked about one of its joints.
class Travels {
 public:
  explicit Travels(const Assembly& assembly)
      : assembly_(assembly),
        gaps_(assembly_, prepareGeometry(assembly_, 1)),
        standing(assembly_.home()) {}

  FreeTravel ask(JointDrive drive, double least, double greatest) const {
    return freeTravel(assembly_, gaps_, standing, {drive, least, greatest}, monitor_);
  }
  FreeTravel askDeg(JointDrive drive, double least, double greatest) const {
    return ask(drive, radFromDeg(least), radFromDeg(greatest));
  }

 private:
  Assembly assembly_;
  StandingGaps gaps_;
  WorkMonitor monitor_;

 public:
  Configuration standing;
};

void expectStopDeg(const TravelWay& way, double wantedDeg, double withinDeg = kTravelDeg) {
  ASSERT_TRUE(way.stop.has_value());
  EXPECT_TRUE(way.stop->touches);
  EXPECT_NEAR(degFromRad(way.freeTo), wantedDeg, withinDeg);
  EXPECT_NEAR(degFromRad(way.stop->touchedAt), wantedDeg, withinDeg);
}

Mechanism cubeBetweenWalls() {
  Mechanism mechanism;
  const PartId cube = mechanism.addPart("cube", box({-5, -5, -5}, {5, 5, 5}));
  mechanism.addPart("wall ahead", box({20, -9, -9}, {25, 9, 9}));
  mechanism.addPart("wall behind", box({-40, -9, -9}, {-37.5, 9, 9}));
  mechanism.addPart("far ahead", box({60, -9, -9}, {65, 9, 9}));
  mechanism.addSlide(cube, {}, Vector3d::UnitX());
  return mechanism;
}

TEST(FreeTravel, SlideGoesToTheWallEachWay) {  // M-7: the gap falls linearly.
  const Travels travels(cubeBetweenWalls().assembly());
  const FreeTravel travel = travels.ask({JointId{0}}, -100, 100);
  ASSERT_TRUE(travel.up.stop && travel.down.stop);
  EXPECT_NEAR(travel.up.freeTo, 15, kTravelMm);
  EXPECT_LT(travel.up.freeTo, 15);
  EXPECT_NEAR(travel.up.stop->touchedAt, 15, kTravelMm);
  EXPECT_EQ(travel.up.stop->a, PartId{0});
  EXPECT_EQ(travel.up.stop->b, PartId{1}) << "the nearer wall, not the one behind it";
  ASSERT_TRUE(travel.up.stop->point_W);
  EXPECT_NEAR(travel.up.stop->point_W->x(), 20, 1e-4);
  EXPECT_NEAR(travel.down.freeTo, -32.5, kTravelMm);
  EXPECT_EQ(travel.down.stop->b, PartId{2});
  EXPECT_TRUE(travel.meeting.empty());
}

TEST(FreeTravel, RangeThatEndsBeforeTheWallIsFreeToItsEnd) {
  const Travels travels(cubeBetweenWalls().assembly());
  const FreeTravel travel = travels.ask({JointId{0}}, -32.4, 14.9);
  EXPECT_FALSE(travel.up.stop || travel.down.stop);
  EXPECT_EQ(travel.up.freeTo, 14.9);
  EXPECT_EQ(travel.down.freeTo, -32.4);
}

TEST(FreeTravel, StoppedJointGoesBackAndDoesNotCreepOn) {
  Travels travels(cubeBetweenWalls().assembly());
  double at = 0;
  for (int round = 0; round < 6; ++round) {
    at = travels.ask({JointId{0}}, -100, 100).up.freeTo;
    travels.standing.values[0].x() = at;
  }
  EXPECT_LT(at, 15) << "each time as it was stopped the time before";
  EXPECT_NEAR(at, 15, kTravelMm);
  const FreeTravel travel = travels.ask({JointId{0}}, -100, 100);
  EXPECT_TRUE(travel.meeting.empty());
  EXPECT_NEAR(travel.down.freeTo, -32.5, kTravelMm);
  ASSERT_TRUE(travel.up.stop);
  EXPECT_EQ(travel.up.stop->b, PartId{1});
}

TEST(FreeTravel, PairThatMeetsAtTheStartIsNamedAndTheOthersStop) {
  Travels travels(cubeBetweenWalls().assembly());
  travels.standing.values[0].x() = 16;  // 1 into the wall ahead.
  const FreeTravel travel = travels.ask({JointId{0}}, -100, 100);
  ASSERT_EQ(travel.meeting.size(), 1u);
  EXPECT_EQ(travel.meeting[0], std::pair(PartId{0}, PartId{1}));
  ASSERT_TRUE(travel.up.stop);
  EXPECT_EQ(travel.up.stop->b, PartId{3});
  EXPECT_NEAR(travel.up.freeTo, 55, kTravelMm);
}

TEST(FreeTravel, AllowedPairDoesNotStop) {
  Mechanism mechanism = cubeBetweenWalls();
  mechanism.parts().pairRules.push_back({PartId{0}, PartId{1}, {}, {}, "a soft buffer"});
  const FreeTravel travel = Travels(mechanism.assembly()).ask({JointId{0}}, -100, 100);
  EXPECT_NEAR(travel.up.freeTo, 55, kTravelMm);
}

TEST(FreeTravel, PlateStopsWhereItsCornerMeetsTheWall) {  // M-2.
  Mechanism mechanism;
  const PartId plate = mechanism.addPart("plate", box({0, 0, 0}, {40, 30, 10}));
  mechanism.addPart("wall", box({49, -100, -5}, {60, 100, 15}));
  const JointId hinge = mechanism.addHinge(plate, {}, Vector3d::Zero(), Vector3d::UnitZ());
  expectStopDeg(Travels(mechanism.assembly()).askDeg({hinge}, -90, 0).down, -25.3915);
}

TEST(FreeTravel, PlateThatJustPassesTheWallIsFreeAllTheWay) {  // M-1: 2 mm at the nearest.
  Mechanism mechanism;
  const PartId plate = mechanism.addPart("plate", box({0, 0, 0}, {40, 30, 10}));
  mechanism.addPart("wall", box({50.0001, -100, -5}, {60, 100, 15}));
  const JointId hinge = mechanism.addHinge(plate, {}, Vector3d::Zero(), Vector3d::UnitZ());
  const FreeTravel travel = Travels(mechanism.assembly()).askDeg({hinge}, -90, 0);
  EXPECT_FALSE(travel.down.stop) << "corner radius 50, wall at 50.0001";
  EXPECT_EQ(travel.down.freeTo, radFromDeg(-90));
}

/// M-4: a bar of half-thickness 2, length 50, and a post of radius 5 at (30, 30).
Mechanism barByPost() {
  Mechanism mechanism;
  const PartId bar = mechanism.addPart("bar", box({0, -2, -1}, {50, 2, 1}));
  const TriangleMesh post = shapes::cylinder(5, -5, 5, 1440);  // Sagitta 1.2e-5 mm.
  mechanism.addPart("post", shapes::moved(post, translation({30, 30, 0})));
  mechanism.addHinge(bar, {}, Vector3d::Zero(), Vector3d::UnitZ());
  return mechanism;
}

TEST(FreeTravel, BarStopsAtThePostFromBothSides) {
  Travels travels(barByPost().assembly());
  expectStopDeg(travels.askDeg({JointId{0}}, 0, 180).up, 35.5032545);
  travels.standing.values[0].x() = radFromDeg(90);
  expectStopDeg(travels.askDeg({JointId{0}}, 0, 180).down, 54.4967455);
}

TEST(FreeTravel, FollowerGoesAlongAndItsPartsStop) {  // M-6: acos(40/45) = 27.2660445 degrees.
  Mechanism mechanism;
  // Mirrored; both upright at 0, and they sink towards each other.
  const PartId left = mechanism.addPart("left", shapes::prism({{0, 0}, {0, 45}, {-3, 0}}, 0, 1));
  const PartId right =
      mechanism.addPart("right", shapes::prism({{80, 0}, {83, 0}, {80, 45}}, 0, 1));
  const JointId leader = mechanism.addHinge(left, {}, Vector3d::Zero(), -Vector3d::UnitZ());
  const JointId follower = mechanism.addHinge(right, {}, {80, 0, 0}, Vector3d::UnitZ());
  mechanism.joint(follower).follows = JointFollow{leader, 1, 0};
  expectStopDeg(Travels(mechanism.assembly()).askDeg({leader}, 0, 90).up, 90 - 27.2660445);
}

/// The bar of M-4 on a ball at its end.
Mechanism barOnABall() {
  Mechanism mechanism = barByPost();
  mechanism.parts().joints.clear();
  mechanism.addBall(PartId{0}, {}, Vector3d::Zero());
  return mechanism;
}

TEST(FreeTravel, BallTurnedAboutAnAxisStopsAsAHingeDoes) {
  Travels travels(barOnABall().assembly());
  travels.standing.values[0] = {0, 0, radFromDeg(10)};
  const JointDrive about{JointId{0}, 0, Vector3d::UnitZ()};
  const FreeTravel travel = travels.askDeg(about, -180, 180);
  expectStopDeg(travel.up, 35.5032545 - 10);
  EXPECT_FALSE(travel.down.stop) << "from behind it comes to the post after more than half a turn";
}

TEST(FreeTravel, ComponentOfABallStopsAsAHingeDoesWhereTheOthersAreZero) {
  const Travels travels(barOnABall().assembly());
  expectStopDeg(travels.askDeg({JointId{0}, 2}, -150, 180).up, 35.5032545);
}

TEST(FreeTravel, ComponentOfATurnedBallIsFreeUpToWhereSamplesOfItsWayMeet) {
  Travels travels(barOnABall().assembly());
  travels.standing.values[0] = {0.2, -0.1, 0};  // Its way is then no turn about one axis.
  const FreeTravel travel = travels.askDeg({JointId{0}, 2}, 0, 180);
  ASSERT_TRUE(travel.up.stop);
  // Another engine and other poses: FCL, the exponential map by Eigen.
  const Assembly assembly = barOnABall().assembly();
  const GapModel bar(*assembly.parts()[0].mesh), post(*assembly.parts()[1].mesh);
  const auto gapAt = [&](double z) {
    const Vector3d turn(0.2, -0.1, z);
    Pose X = Pose::Identity();
    X.linear() = Eigen::AngleAxisd(turn.norm(), turn.normalized()).toRotationMatrix();
    return gapBetween(bar, post, X.inverse()).gapMm;
  };
  for (int i = 0; i <= 2000; ++i) ASSERT_GT(gapAt(travel.up.freeTo * i / 2000), 0) << i;
  // The chords of a degree are off by at most 4e-5 rad: 0.003 mm at the bar's end.
  EXPECT_LT(gapAt(travel.up.freeTo), 0.005);
  EXPECT_EQ(gapAt(travel.up.freeTo + 2e-3), 0);
}

TEST(FreeTravel, BudgetThatRunsOutIsSaidAndNothingIsCalledFree) {
  Mechanism mechanism;
  const PartId ball = mechanism.addPart("ball", shapes::sphere(10, 4));
  mechanism.addPart("cup", shapes::moved(shapes::torus(20, 9.5, 60, 40), translation({0, 0, 1})));
  const JointId hinge = mechanism.addHinge(ball, {}, Vector3d::Zero(), Vector3d::UnitX());
  const Assembly assembly = mechanism.assembly();
  const StandingGaps gaps(assembly, prepareGeometry(assembly, 1));
  const FreeTravel travel =
      freeTravel(assembly, gaps, assembly.home(), {{hinge}, -1, 1, 50}, WorkMonitor());
  ASSERT_TRUE(travel.up.stop);
  EXPECT_FALSE(travel.up.stop->touches);
  EXPECT_LT(travel.up.freeTo, 1);
}

class FreeTravelOfTheHatchBox : public ::testing::Test {
 protected:
  static LoadedAssembly loaded() {
    const auto file = std::filesystem::path(SWINGROOM_SOURCE) /
                      "sample_assemblies/hatch_box/hatch_box.swing.json";
    Outcome<LoadedAssembly> made = loadAssembly(file, MeshReader::besideThisProgram(), 1);
    if (!made) throw std::runtime_error(toText(made.problems().front()));
    return std::move(made).value();
  }
  LoadedAssembly sample_ = loaded();
  Travels travels_{sample_.assembly};
  JointDrive lid_{*sample_.assembly.findJoint("lid hinge")};
  JointDrive bolt_{*sample_.assembly.findJoint("bolt slide")};
};

TEST_F(FreeTravelOfTheHatchBox, BoltedLidStopsAtTheKeepersRoof) {
  // README: 53.1 sin(t) + 8.1 cos(t) = 8.7, at t = 0.6480 degrees.
  double t = 0.011;
  for (int i = 0; i < 50; ++i)
    t -= (53.1 * std::sin(t) + 8.1 * std::cos(t) - 8.7) / (53.1 * std::cos(t) - 8.1 * std::sin(t));
  ASSERT_NEAR(degFromRad(t), 0.6480, 5e-5);
  const FreeTravel travel = travels_.askDeg(lid_, 0, 110);
  expectStopDeg(travel.up, degFromRad(t));
  EXPECT_EQ(travel.up.stop->a, *sample_.assembly.findPart("box"));
  EXPECT_EQ(travel.up.stop->b, *sample_.assembly.findPart("bolt"));
  EXPECT_TRUE(travel.meeting.empty()) << "pins in their zones do not count";
}

TEST_F(FreeTravelOfTheHatchBox, UnboltedLidIsFreeOverItsRange) {
  travels_.standing.values[bolt_.joint.index].x() = 8;
  const FreeTravel travel = travels_.askDeg(lid_, 0, 110);
  EXPECT_FALSE(travel.up.stop);
  EXPECT_EQ(travel.up.freeTo, radFromDeg(110));
}

TEST_F(FreeTravelOfTheHatchBox, BoltStopsAtTheBridgeAndAtTheRidge) {
  // README: at either end of its way, 0 and 8, it is 0.5 from the bridge or the ridge.
  const FreeTravel travel = travels_.ask(bolt_, -20, 20);
  ASSERT_TRUE(travel.up.stop && travel.down.stop);
  EXPECT_NEAR(travel.down.freeTo, -0.5, kTravelMm);
  EXPECT_NEAR(travel.up.freeTo, 8.5, kTravelMm);
}

}  // namespace
}  // namespace swingroom
