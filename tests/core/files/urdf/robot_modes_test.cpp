// Modes of robots: zero, named states, poses, and what a first check can run between.
#include <gtest/gtest.h>

#include "tests/core/files/urdf/robot_folder.h"

namespace swingroom::robots {
namespace {

const char* const kArm = R"(
<link name="base"><visual><geometry><box size="1 1 1"/></geometry></visual></link>
<link name="arm"><visual><geometry><box size="1 1 1"/></geometry></visual></link>
<link name="hand"><visual><geometry><box size="1 1 1"/></geometry></visual></link>
<link name="bare"/><link name="tip"><visual><geometry><box size="1 1 1"/></geometry></visual></link>
<joint name="shoulder" type="revolute"><parent link="base"/><child link="arm"/>
  <limit lower="-1.5707963267948966" upper="3.141592653589793"/></joint>
<joint name="elbow" type="revolute"><parent link="arm"/><child link="hand"/>
  <limit lower="0.17453292519943295" upper="1.0471975511965976"/></joint>
<joint name="reach" type="prismatic"><parent link="hand"/><child link="bare"/>
  <limit lower="-0.02" upper="0.1"/></joint>
<joint name="spin" type="continuous"><parent link="bare"/><child link="tip"/></joint>)";

class RobotModesTest : public ::testing::Test {
 protected:
  void SetUp() override { folder_.write("r.urdf", robotText(kArm)); }
  ReadRobot read(const RobotWish& wish = {}) const {
    return readWell(folder_ / "r.urdf", folder_ / "r.swing.json", wish);
  }
  Problems told(const RobotWish& wish) const {
    return readRobot(folder_ / "r.urdf", folder_ / "r.swing.json", wish).problems();
  }
  static std::vector<std::string> modesOf(const ReadRobot& robot) {
    std::vector<std::string> names;
    for (const DocumentMode& mode : robot.made.document.modes) names.push_back(mode.name);
    return names;
  }

  RobotFolder folder_;
};

/// Shoulder -90..180: zero, then half way to 180. Elbow 10..60: at 10, then at 35. Reach -20..100
/// mm: 0, 50. Spin without ends: 0, 90.
TEST_F(RobotModesTest, WithoutStatesThereAreZeroWithinLimitsAndHalfWay) {
  const ReadRobot robot = read();
  ASSERT_EQ(modesOf(robot), (std::vector<std::string>{"near zero", "half way"}));
  const std::map<std::string, std::pair<double, double>> wanted{
      {"shoulder", {0, 90}}, {"elbow", {10, 35}}, {"reach", {0, 50}}, {"spin", {0, 90}}};
  for (const auto& [joint, values] : wanted) {
    EXPECT_NEAR(robot.value("near zero", joint), values.first, 1e-9) << joint;
    EXPECT_NEAR(robot.value("half way", joint), values.second, 1e-9) << joint;
  }
  ASSERT_EQ(robot.loaded.sequences.size(), 1u);
  EXPECT_EQ(robot.made.document.sequences[0].from, "near zero");
  EXPECT_EQ(robot.made.document.sequences[0].to, "half way");
}

TEST_F(RobotModesTest, PosesAreModesInDegreesAndMillimetres) {
  RobotWish wish;
  wish.poses = {"folded=shoulder:-45.5,reach:20", "straight up=elbow:60"};
  const ReadRobot robot = read(wish);
  ASSERT_EQ(modesOf(robot), (std::vector<std::string>{"near zero", "folded", "straight up"}));
  EXPECT_NEAR(robot.value("folded", "shoulder"), -45.5, 1e-9);
  EXPECT_NEAR(robot.value("folded", "reach"), 20, 1e-9);
  EXPECT_NEAR(robot.value("folded", "elbow"), 10, 1e-9) << "as near to zero as it goes";
  EXPECT_NEAR(robot.value("straight up", "elbow"), 60, 1e-9);
}

TEST_F(RobotModesTest, WordsThatAreNoPoseAreTold) {
  RobotWish wish;
  wish.poses = {"folded", "a=sholder:3", "b=elbow:x", "c=elbow"};
  expectTold(told(wish), 4,
             {"NAME=joint:value", "no joint \"sholder\"", "did you mean \"shoulder\"?",
              "\"elbow:x\" is not joint:value", "\"elbow\" is not joint:value"});
}

TEST_F(RobotModesTest, ValuesBeyondLimitsAreTakenAtTheLimitAndTold) {
  RobotWish wish;
  wish.poses = {"far=shoulder:200"};
  const ReadRobot robot = read(wish);
  EXPECT_NEAR(robot.value("far", "shoulder"), 180, 1e-9);
  expectTold(robot.made.notes, 1, {"\"far\" puts joint \"shoulder\" at 200°", "180° is taken"});
}

const char* const kStates = R"(<?xml version="1.0"?><robot name="test">
<group name="arm"><joint name="shoulder"/></group>
<group_state name="home" group="arm"><joint name="shoulder" value="1.5707963267948966"/></group_state>
<group_state name="home" group="hand"><joint name="reach" value="0.03"/></group_state>
<group_state name="open" group="hand"><joint name="reach" value="0.1"/></group_state>
<group_state name="home" group="other"><joint name="reach" value="0.04"/></group_state>
<disable_collisions link1="base" link2="arm" reason="Adjacent"/>
<disable_collisions link1="base" link2="moon" reason="Never"/></robot>)";

TEST_F(RobotModesTest, NamedStatesBesideTheRobotBecomeModes) {
  folder_.write("r.srdf", kStates);
  const ReadRobot robot = read();
  ASSERT_EQ(modesOf(robot),
            (std::vector<std::string>{"near zero", "home", "open", "home (other)"}));
  EXPECT_NEAR(robot.value("home", "shoulder"), 90, 1e-9);
  EXPECT_NEAR(robot.value("home", "reach"), 30, 1e-9) << "one state of two groups";
  EXPECT_NEAR(robot.value("open", "reach"), 100, 1e-9);
  EXPECT_NEAR(robot.value("open", "shoulder"), 0, 1e-9);
  EXPECT_NEAR(robot.value("home (other)", "reach"), 40, 1e-9) << "it disagrees";
  expectTold(robot.made.notes, 1, {"r.srdf", "\"moon\""});
}

TEST_F(RobotModesTest, DisabledCollisionsAreAllowedWithTheirReason) {
  folder_.write("states/given.srdf", kStates);
  RobotWish wish;
  wish.states = folder_ / "states/given.srdf";
  const ReadRobot robot = read(wish);
  ASSERT_EQ(robot.made.document.pairs.size(), 1u);
  EXPECT_EQ(robot.made.document.pairs[0].parts, (std::array<std::string, 2>{"base", "arm"}));
  EXPECT_NE(robot.made.document.pairs[0].allow->find("Adjacent"), std::string::npos);
}

TEST_F(RobotModesTest, StatesOfJointsThatAreNotThereAreTold) {
  folder_.write(
      "r.srdf",
      "<robot>\n<group_state name=\"home\" group=\"g\">\n<joint name=\"elbo\" value=\"1\"/>"
      "</group_state></robot>");
  expectTold(told({}), 1,
             {"r.srdf, line 3", "state \"home\" names joint \"elbo\"", "did you mean \"elbow\"?"});
  RobotWish wish;
  wish.states = folder_ / "none.srdf";
  expectTold(told(wish), 1, {"none.srdf", "no such file"});
}

/// The bare link between hand and tip has no shape: the two are joined across it.
TEST_F(RobotModesTest, JoinedPartsAreAllowedOnlyIfThatIsAskedFor) {
  EXPECT_TRUE(read().made.document.pairs.empty());
  RobotWish wish;
  wish.allowJoined = true;
  std::vector<std::array<std::string, 2>> pairs;
  for (const DocumentPair& pair : read(wish).made.document.pairs) pairs.push_back(pair.parts);
  EXPECT_EQ(pairs, (std::vector<std::array<std::string, 2>>{
                       {"arm", "base"}, {"hand", "arm"}, {"tip", "hand"}}));
}

TEST_F(RobotModesTest, FollowersAreLeftOutOfModesAndKeepTheirLeadersWithinTheirOwnLimits) {
  // f = 2 m - 30 degrees within 10..50: m within 20..40, though it could go to -90..90 itself.
  folder_.write("r.urdf", robotText(R"(
<link name="a"/><link name="b"/><link name="c"/>
<joint name="m" type="revolute"><parent link="a"/><child link="b"/>
  <limit lower="-1.5707963267948966" upper="1.5707963267948966"/></joint>
<joint name="f" type="revolute"><parent link="a"/><child link="c"/>
  <limit lower="0.17453292519943295" upper="0.8726646259971648"/>
  <mimic joint="m" multiplier="2" offset="-0.5235987755982988"/></joint>)"));
  const ReadRobot robot = read();
  EXPECT_NEAR(robot.value("near zero", "m"), 20, 1e-6);
  EXPECT_NEAR(robot.value("half way", "m"), 30, 1e-6);
  EXPECT_FALSE(robot.made.document.modes[0].values->contains("f"));
}

TEST_F(RobotModesTest, FloatingAndPlanarJointsAreHeldAndTold) {
  folder_.write("r.urdf", robotText(R"(
<link name="a"/><link name="b"/><link name="c"/>
<joint name="free" type="floating"><parent link="a"/><child link="b"/></joint>
<joint name="table" type="planar"><parent link="b"/><child link="c"/></joint>)"));
  const ReadRobot robot = read();
  EXPECT_EQ(robot.joint("free").type, JointType::fixed);
  EXPECT_EQ(robot.joint("table").type, JointType::fixed);
  ASSERT_EQ(modesOf(robot), (std::vector<std::string>{"zero"}));
  EXPECT_TRUE(robot.made.document.sequences.empty());
  expectTold(robot.made.notes, 1,
             {"\"free\" and \"table\" are floating or planar joints", "line 4", "held fixed"});
}

TEST_F(RobotModesTest, RobotsStandWithZUpAndLookAlongX) {
  const ReadRobot robot = read();
  EXPECT_EQ(robot.made.document.up, (ThreeNumbers{0, 0, 1}));
  EXPECT_EQ(robot.made.document.front, (ThreeNumbers{1, 0, 0}));
  EXPECT_EQ(robot.made.document.name, "test");
}

}  // namespace
}  // namespace swingroom::robots
