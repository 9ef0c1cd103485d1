#include "app/session/stand.h"

#include <gtest/gtest.h>

#include <QSignalSpy>
#include <cmath>
#include <limits>

#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

constexpr double kExact = 1e-12;
constexpr double kRoundingMm = 1e-9;

/// Where a point of a part (as it stands at home) stands now.
Vector3d nowAt(const Stand& stand, const std::string& name, const Vector3d& home_W) {
  const PartId id = part(*stand.scene(), name);
  return displacementsOf(stand.scene()->assembly(), stand.standing())[id.index] * home_W;
}

TEST(NextBead, IsTheNearestStepEndInTheDirection) {
  // Beads of 4 steps stand at quarters.
  EXPECT_DOUBLE_EQ(nextBead(0.3, 4, true), 0.5);
  EXPECT_DOUBLE_EQ(nextBead(0.3, 4, false), 0.25);
  EXPECT_DOUBLE_EQ(nextBead(0.25, 4, true), 0.5) << "on a bead: the one after";
  EXPECT_DOUBLE_EQ(nextBead(0.25, 4, false), 0.0);
  EXPECT_DOUBLE_EQ(nextBead(0, 4, false), 0.0) << "the way ends there";
  EXPECT_DOUBLE_EQ(nextBead(1, 4, true), 1.0);
  EXPECT_DOUBLE_EQ(nextBead(0.7, 1, true), 1.0);
  EXPECT_DOUBLE_EQ(nextBead(0.7, 0, false), 0.0) << "no step is one";
}

TEST(NextBead, StepsThroughEveryBeadThatIsNoBinaryFraction) {
  for (const std::size_t steps : {3u, 7u, 9u, 40u}) {
    double instant = 0;
    for (std::size_t s = 1; s <= steps; ++s) {
      instant = nextBead(instant, steps, true);
      EXPECT_NEAR(instant, static_cast<double>(s) / static_cast<double>(steps), kExact);
    }
    for (std::size_t s = steps; s > 0; --s) instant = nextBead(instant, steps, false);
    EXPECT_EQ(instant, 0.0);
  }
}

class StandTest : public ::testing::Test {
 protected:
  void SetUp() override { stand_.setScene(bench_.scene()); }

  Bench bench_ = Bench::hatchBox();
  Stand stand_;
};

TEST_F(StandTest, WithoutASceneNothingStandsAndNothingMoves) {
  Stand empty;
  empty.moveTo(0.5);
  empty.setRunning(true);
  empty.moveJoint(JointId{0}, {1, 0, 0});
  empty.showWay(1);
  EXPECT_FALSE(empty.isRunning());
  EXPECT_TRUE(empty.standing().values.empty());
  EXPECT_EQ(empty.steps(), 1u);
}

TEST_F(StandTest, MoveToStandsWhereTheWayHasIt) {
  // "lid up" is the second of two steps: three quarters of the way have the bolt back and half of
  // 110 degrees.
  stand_.moveTo(0.75);
  const ScenePtr& scene = stand_.scene();
  EXPECT_NEAR(stand_.standing().values[joint(*scene, "bolt slide").index].x(), 8, kExact);
  EXPECT_NEAR(stand_.standing().values[joint(*scene, "lid hinge").index].x(), radFromDeg(55),
              kExact);
}

TEST_F(StandTest, MoveToClampsAndIgnoresWhatIsNoNumber) {
  stand_.moveTo(-3);
  EXPECT_EQ(stand_.instant(), 0);
  stand_.moveTo(17);
  EXPECT_EQ(stand_.instant(), 1);
  const QSignalSpy moved(&stand_, &Stand::moved);
  stand_.moveTo(std::numeric_limits<double>::quiet_NaN());
  stand_.moveTo(std::numeric_limits<double>::infinity());
  EXPECT_EQ(stand_.instant(), 1);
  EXPECT_EQ(moved.count(), 0);
}

TEST_F(StandTest, RunningReachesTheEndAndStops) {
  stand_.moveTo(0.97);
  const QSignalSpy running(&stand_, &Stand::runningChanged);
  stand_.setRunning(true);
  EXPECT_TRUE(stand_.isRunning());
  ASSERT_TRUE(waitUntil([&] { return !stand_.isRunning(); }));
  EXPECT_EQ(stand_.instant(), 1);
  ASSERT_EQ(running.count(), 2);
  EXPECT_TRUE(running[0][0].toBool());
  EXPECT_FALSE(running[1][0].toBool());
}

TEST_F(StandTest, RunningGoesForwardOnlyAndFromTheEndBeginsAgain) {
  stand_.moveTo(1);
  double last = -1;
  bool forward = true;
  stand_.setRunning(true);
  EXPECT_EQ(stand_.instant(), 0);
  QObject::connect(&stand_, &Stand::moved, [&] {
    forward = forward && stand_.instant() > last;
    last = stand_.instant();
  });
  ASSERT_TRUE(waitUntil([&] { return last > 0.01; }));
  stand_.setRunning(false);
  EXPECT_TRUE(forward);
  const double stopped = stand_.instant();
  letTimePass();
  EXPECT_EQ(stand_.instant(), stopped);
}

TEST_F(StandTest, MovingAJointByHandCarriesWhatHangsOnIt) {
  // README.md of the sample: a point (f, h) of the lid stands at f cos t - h sin t to the front
  // and f sin t + h cos t up; the bolt hangs on the lid. Its nose is at (53.1, 8.1).
  const double t = radFromDeg(40);
  stand_.moveJoint(joint(*stand_.scene(), "lid hinge"), {t, 0, 0});
  const Vector3d nose = nowAt(stand_, "bolt", {0, -53.1, 24 + 8.1});
  EXPECT_NEAR(-nose.y(), 53.1 * std::cos(t) - 8.1 * std::sin(t), kRoundingMm);
  EXPECT_NEAR(nose.z() - 24, 53.1 * std::sin(t) + 8.1 * std::cos(t), kRoundingMm);
  EXPECT_TRUE(stand_.isByHand());
  stand_.moveJoint(joint(*stand_.scene(), "bolt slide"), {8, 0, 0});
  const Vector3d back = nowAt(stand_, "bolt", {0, -53.1, 24 + 8.1});
  EXPECT_NEAR(-back.y(), 45.1 * std::cos(t) - 8.1 * std::sin(t), kRoundingMm)
      << "the lid stays where the hand has left it";
}

TEST_F(StandTest, MoveToEndsWhatWasByHand) {
  stand_.moveTo(0.25);
  const Configuration onTheWay = stand_.standing();
  stand_.moveJoint(joint(*stand_.scene(), "lid hinge"), {1, 0, 0});
  EXPECT_EQ(stand_.instant(), 0.25);
  stand_.moveTo(0.25);
  EXPECT_FALSE(stand_.isByHand());
  EXPECT_EQ(stand_.standing(), onTheWay);
}

TEST_F(StandTest, AHandOnAJointStopsTheRun) {
  stand_.setRunning(true);
  stand_.moveJoint(joint(*stand_.scene(), "lid hinge"), {1, 0, 0});
  EXPECT_FALSE(stand_.isRunning());
}

TEST_F(StandTest, AJointThatIsNotThereOrNoNumberMovesNothing) {
  const Configuration before = stand_.standing();
  stand_.moveJoint(JointId{99}, {1, 0, 0});
  stand_.moveJoint(JointId{0}, {std::numeric_limits<double>::quiet_NaN(), 0, 0});
  EXPECT_EQ(stand_.standing(), before);
  EXPECT_FALSE(stand_.isByHand());
}

TEST_F(StandTest, AnEditedSceneKeepsWayAndInstant) {
  stand_.moveTo(0.6);
  AssemblyDocument document = bench_.document();
  document.sequences.insert(document.sequences.begin(), document.sequences.front());
  document.sequences.front().name = "another";
  document.sequences.front().steps.clear();
  stand_.setScene(bench_.scene(document));
  EXPECT_EQ(stand_.scene()->ways[stand_.way()].name, "open up");
  EXPECT_EQ(stand_.instant(), 0.6);
  document.sequences.pop_back();
  stand_.setScene(bench_.scene(document));
  EXPECT_EQ(stand_.way(), 0u);
  EXPECT_EQ(stand_.instant(), 0) << "its way is gone";
}

TEST_F(StandTest, ARenamedWayIsStillStoodIn) {
  stand_.moveTo(0.6);
  AssemblyDocument document = bench_.document();
  document.sequences[0].name = "lift the lid";
  document.sequences[0].steps[1].name = "up";
  stand_.setScene(bench_.scene(document, stand_.scene().get()));
  EXPECT_EQ(stand_.instant(), 0.6);
}

TEST_F(StandTest, TheNeedleStaysWhereEverythingStandsTheSameWhenStepsAreSplit) {
  stand_.moveTo(0.75);  // Half of the second of two steps: the lid at 55 of 110 degrees.
  const Configuration before = stand_.standing();
  AssemblyDocument document = bench_.document();
  auto& steps = document.sequences[0].steps;
  steps.push_back(steps[1]);
  steps[1].moves["lid hinge"] = 55.0;
  steps[2].name = "lid up 2";
  stand_.setScene(bench_.scene(document, stand_.scene().get()));
  EXPECT_NEAR(stand_.instant(), 2.0 / 3, 1e-9) << "on the bead between its halves";
  EXPECT_NEAR(stand_.standing().values[0].x(), before.values[0].x(), 1e-9);
  // Then a step is put in before, and it stands as far into the step of that name.
  steps[1].moves["lid hinge"] = 70.0;
  stand_.moveTo(5.0 / 6);  // Half of the last step.
  stand_.setScene(bench_.scene(document, stand_.scene().get()));
  EXPECT_NEAR(stand_.standing().values[0].x(), radFromDeg(82.5), 1e-9) << "55 + half of 55";
}

TEST_F(StandTest, AStationStaysAStation) {
  stand_.moveTo(1);
  AssemblyDocument document = bench_.document();
  document.modes[1].values->at("lid hinge") = 100.0;
  document.sequences[0].steps[1].moves["lid hinge"] = 100.0;
  stand_.setScene(bench_.scene(document, stand_.scene().get()));
  EXPECT_EQ(stand_.instant(), 1);
  EXPECT_NEAR(stand_.standing().values[0].x(), radFromDeg(100), 1e-9);
}

TEST_F(StandTest, AnEditLeavesJointsWhereAHandPutThemUnlessTheWayNowGoesThere) {
  stand_.moveTo(0);
  stand_.moveJoint(joint(*stand_.scene(), "lid hinge"), {radFromDeg(30), 0, 0});
  AssemblyDocument document = bench_.document();
  document.modes.push_back(document.modes[0]);
  document.modes.back().name = "ajar";
  document.modes.back().values->at("lid hinge") = 30.0;
  stand_.setScene(bench_.scene(document, stand_.scene().get()));
  EXPECT_TRUE(stand_.isByHand()) << "a mode of no way";
  EXPECT_NEAR(stand_.standing().values[0].x(), radFromDeg(30), 1e-9);
  auto& steps = document.sequences[0].steps;
  steps.insert(steps.begin(), steps[1]);
  steps[0].moves["lid hinge"] = 30.0;
  steps[0].name = "ajar";
  stand_.setScene(bench_.scene(document, stand_.scene().get()));
  EXPECT_FALSE(stand_.isByHand());
  EXPECT_NEAR(stand_.instant(), 1.0 / 3, 1e-9);
}

TEST(StandOnTheBoat, FollowersFollowTheHand) {
  const Bench bench = Bench::boat();
  Stand stand;
  stand.setScene(bench.scene());
  // The axle follows the shoulder with ratio -2.
  stand.moveJoint(joint(*stand.scene(), "shoulder"), {0.3, 0, 0});
  EXPECT_NEAR(stand.standing().values[joint(*stand.scene(), "axle").index].x(), -0.6, kExact);
}

TEST(StandOnTheBoat, FollowersOfFollowersThatComeFirstInTheFileFollowToo) {
  const Bench bench = Bench::boat();
  AssemblyDocument document = bench.document();
  DocumentJoint wrist = document.joints[1];
  ASSERT_EQ(wrist.name, "wrist");
  // wrist = 0.1 mm a degree of the axle, turned round, + 2: listed before the axle that it follows.
  wrist.follows = DocumentFollows{"axle", -0.1, 2, {}};
  wrist.range.reset();
  wrist.clicks.clear();
  document.joints[1] = wrist;
  document.modes.clear();
  document.sequences.clear();
  document.pairs.clear();
  Stand stand;
  stand.setScene(bench.scene(document));
  stand.moveJoint(joint(*stand.scene(), "shoulder"), {radFromDeg(30), 0, 0});
  // Axle -60 degrees: -0.1 * -60 + 2.
  EXPECT_NEAR(stand.standing().values[joint(*stand.scene(), "wrist").index].x(), 8, 1e-9);
}

TEST(StandInThePress, ShowWayGoesToItsStart) {
  const Bench bench = Bench::press();
  Stand stand;
  stand.setScene(bench.scene());
  stand.moveTo(0.5);
  const QSignalSpy ways(&stand, &Stand::wayChanged);
  stand.showWay(1);
  EXPECT_EQ(stand.way(), 1u);
  EXPECT_EQ(stand.instant(), 0);
  EXPECT_NEAR(stand.standing().values[0].x(), 1, kExact) << "mode parked";
  stand.showWay(1);
  stand.showWay(7);
  EXPECT_EQ(stand.way(), 1u);
  EXPECT_EQ(ways.count(), 1);
}

}  // namespace
}  // namespace swingroom
