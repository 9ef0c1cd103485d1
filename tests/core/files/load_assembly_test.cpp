#include "core/files/loading/load_assembly.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/files/loading/joint_values.h"
#include "core/mesh/mass_properties.h"
#include "tests/core/files/load_fixture.h"

namespace swingroom {
namespace {

class LoadingAssemblies : public LoadFixture {
 protected:
  static JointValue valueIn(const LoadedAssembly& loaded, const Configuration& configuration,
                            const char* joint) {
    return configuration.values.at(loaded.assembly.findJoint(joint).value().index);
  }
  /// The parts of `mesh` files, with one part's members replaced.
  static std::string onePart(const std::string& members) {
    return R"({"swingroom": 1, "parts": [{"name": "hull", "stages": {"block": "hull.stl"}, )" +
           members + "}]}";
  }
};

TEST_F(LoadingAssemblies, ModesHoldTheirValuesInRadiansAndMm) {
  const LoadedAssembly boat = loadWell(kBoat);
  ASSERT_EQ(boat.modes.size(), 2u);
  const Configuration& robot = boat.modes[1].configuration;
  EXPECT_NEAR(valueIn(boat, robot, "shoulder").x(), kPi / 2, 1e-15);
  EXPECT_EQ(valueIn(boat, robot, "wrist").x(), 10);
  EXPECT_NEAR(valueIn(boat, robot, "neck").z(), radFromDeg(5), 1e-15);
  const PartId axe = boat.assembly.findPart("axe").value();
  EXPECT_EQ(boat.modes[0].configuration.mounts[axe.index], 0u);
  EXPECT_EQ(robot.mounts[axe.index], 1u);
}

TEST_F(LoadingAssemblies, AxesAreUnitVectorsAndRangesInRadians) {
  const LoadedAssembly boat = loadWell(kBoat);
  const Joint& shoulder = boat.assembly.joint(boat.assembly.findJoint("shoulder").value());
  EXPECT_EQ(shoulder.along, Vector3d(0, 1, 0));
  EXPECT_NEAR(shoulder.range.max, kPi / 2, 1e-15);
  const Joint& neck = boat.assembly.joint(boat.assembly.findJoint("neck").value());
  EXPECT_NEAR(neck.range.maxSwingRad, radFromDeg(40), 1e-15);
  EXPECT_NEAR(neck.range.min, radFromDeg(-10), 1e-15);
}

TEST_F(LoadingAssemblies, AFollowerThatIsNotNamedStandsWhereItsLeaderSays) {
  const LoadedAssembly boat = loadWell(kBoat);
  EXPECT_NEAR(valueIn(boat, boat.modes[1].configuration, "axle").x(), -kPi, 1e-15);
  EXPECT_NEAR(valueIn(boat, boat.sequences[0].steps[0].end, "axle").x(), -kPi, 1e-15);
}

// 90 degrees * 0.1 mm a degree + 2 mm = 11 mm; 11 mm * 3 degrees a mm = 33 degrees.
TEST_F(LoadingAssemblies, FollowersInAChainMindTheUnitsOfEach) {
  const LoadedAssembly boat = loadWell(patchedBoat(R"([
    {"op": "replace", "path": "/joints/5/follows", "value": {"joint": "lift", "ratio": 3}},
    {"op": "add", "path": "/parts/-", "value": {"name": "rack", "kind": "soft"}},
    {"op": "add", "path": "/joints/-", "value": {"name": "lift", "type": "slide", "child": "rack", "along": [0, 0, 1],
      "follows": {"joint": "shoulder", "ratio": 0.1, "offset": 2}}}])"));
  const Configuration& robot = boat.modes[1].configuration;
  EXPECT_NEAR(valueIn(boat, robot, "lift").x(), 11, 1e-12);
  EXPECT_NEAR(degFromRad(valueIn(boat, robot, "axle").x()), 33, 1e-12);
}

TEST_F(LoadingAssemblies, StepsAreAbsoluteAndEachStartsWhereTheOneBeforeEnds) {
  const LoadedAssembly boat = loadWell(kBoat);
  const Sequence& rise = boat.sequences.at(0);
  ASSERT_EQ(rise.steps.size(), 3u);
  EXPECT_EQ(rise.steps[0].name, "lift");
  EXPECT_EQ(rise.steps[0].order, StepOrder::together);
  EXPECT_EQ(rise.steps[1].order, StepOrder::free);
  EXPECT_EQ(rise.steps[2].order, StepOrder::replug);
  EXPECT_EQ(rise.steps[0].start, boat.modes[0].configuration);
  EXPECT_EQ(rise.steps[1].start, rise.steps[0].end);
  EXPECT_EQ(rise.steps[2].start, rise.steps[1].end);
  EXPECT_EQ(rise.steps[2].end, boat.modes[1].configuration);
  EXPECT_EQ(valueIn(boat, rise.steps[1].start, "wrist").x(), 0);
  EXPECT_EQ(valueIn(boat, rise.steps[1].end, "wrist").x(), 10);
}

TEST_F(LoadingAssemblies, AReplugSetsTheNewMountsJointsAsTheModeWantsThem) {
  const LoadedAssembly boat = loadWell(kBoat);
  const Step& grab = boat.sequences[0].steps[2];
  EXPECT_EQ(valueIn(boat, grab.start, "hand clip").x(), 0);
  EXPECT_EQ(valueIn(boat, grab.end, "hand clip").x(), 3);
}

TEST_F(LoadingAssemblies, AJointThatStepsMoveIsLeftToThemByAReplug) {
  const LoadedAssembly boat = loadWell(patchedBoat(R"([{"op": "add", "path": "/sequences/0/steps/-",
    "value": {"name": "push", "moves": {"hand clip": 3}}}])"));
  const Sequence& rise = boat.sequences[0];
  EXPECT_EQ(valueIn(boat, rise.steps[2].end, "hand clip").x(), 0);
  EXPECT_EQ(valueIn(boat, rise.steps[3].end, "hand clip").x(), 3);
}

TEST_F(LoadingAssemblies, ASequenceWithoutStepsIsOneStepWithEveryJointTogether) {
  const LoadedAssembly boat = loadWell(patchedBoat(R"([
    {"op": "replace", "path": "/modes/1/mounts/axe", "value": "deck clip"},
    {"op": "replace", "path": "/pairs/0/contacts/0/steps/0", "value": "rise"},
    {"op": "remove", "path": "/sequences/0/steps"}])"));
  const Sequence& rise = boat.sequences[0];
  ASSERT_EQ(rise.steps.size(), 1u);
  EXPECT_EQ(rise.steps[0].name, "rise");
  EXPECT_EQ(rise.steps[0].order, StepOrder::together);
  EXPECT_EQ(rise.steps[0].start, boat.modes[0].configuration);
  EXPECT_EQ(rise.steps[0].end, boat.modes[1].configuration);
}

TEST_F(LoadingAssemblies, AStepWithoutANameIsCalledByItsNumber) {
  const LoadedAssembly boat = loadWell(patchedBoat(R"([
    {"op": "remove", "path": "/sequences/0/steps/1/name"},
    {"op": "replace", "path": "/pairs/0/contacts/0/steps/0", "value": "step 2"}])"));
  EXPECT_EQ(boat.sequences[0].steps[1].name, "step 2");
}

TEST_F(LoadingAssemblies, PairRulesNameTheirPartsModesAndSteps) {
  const LoadedAssembly boat = loadWell(kBoat);
  const PartId hull = boat.assembly.findPart("hull").value();
  const PartId arm = boat.assembly.findPart("arm").value();
  const PartId head = boat.assembly.findPart("head").value();
  const PairRule* rule = boat.assembly.ruleFor(arm, hull);
  ASSERT_NE(rule, nullptr);
  EXPECT_EQ(boat.assembly.requiredGapMm(hull, arm), 0.2);
  EXPECT_EQ(boat.assembly.requiredGapMm(arm, head), 0.3);
  EXPECT_EQ(rule->contacts.at(0).modes, std::vector<ModeId>{ModeId{0}});
  EXPECT_EQ(rule->contacts[0].steps, std::vector<std::string>{"lift"});
  EXPECT_EQ(boat.assembly.ruleFor(hull, head)->allowReason, "glued");
}

TEST_F(LoadingAssemblies, ZonesFitAndClicksComeInMmAndRadians) {
  const LoadedAssembly boat = loadWell(patchedBoat(R"([
    {"op": "add", "path": "/joints/0/zones", "value": [{"radius": 3, "from": -5, "to": 5}]},
    {"op": "add", "path": "/joints/0/clicks", "value": [0, 90]},
    {"op": "add", "path": "/joints/0/fit", "value": -0.1},
    {"op": "add", "path": "/joints/4/zones", "value": [{"radius": 4}]}])"));
  const Joint& shoulder = boat.assembly.joints()[0];
  EXPECT_EQ(shoulder.zones.at(0).fromMm, -5);
  EXPECT_EQ(shoulder.fitMm, -0.1);
  EXPECT_NEAR(shoulder.clicks.at(1), kPi / 2, 1e-15);
  EXPECT_EQ(boat.assembly.joints()[4].zones.at(0).radiusMm, 4);
}

// The box (0,0,0)-(10,20,30): scaled by 2 to (20,40,60), mirrored in x = 1 to x from -18 to 2,
// turned a quarter about z (x, y) -> (-y, x) and put 100 along x.
TEST_F(LoadingAssemblies, AMeshIsScaledThenMirroredThenPlaced) {
  const LoadedAssembly loaded = loadWell(onePart(
      R"("scale": 2, "mirror": {"through": [1, 0, 0], "normal": [-3, 0, 0]},
         "placement": {"at": [100, 0, 0], "turn": [2, 0, 0, 2]})"));
  const Part& hull = loaded.assembly.part(PartId{0});
  const TriangleMesh placed = shapes::moved(*hull.mesh, hull.X_WP_home);
  const Eigen::AlignedBox3d box = boundsOf(placed);
  EXPECT_LT((box.min() - Vector3d(60, -18, 0)).norm(), 1e-9);
  EXPECT_LT((box.max() - Vector3d(100, 2, 60)).norm(), 1e-9);
  // 20 * 40 * 60; positive: the faces still look outwards.
  EXPECT_NEAR(massProperties(placed).volumeMm3, 48'000, 1e-6);
}

TEST_F(LoadingAssemblies, InstancesOfAFileShareOneMesh) {
  const LoadedAssembly loaded = loadWell(R"({"swingroom": 1, "parts": [
    {"name": "a", "stages": {"block": "hull.stl"}},
    {"name": "b", "stages": {"block": "./hull.stl"}, "placement": {"at": [50, 0, 0]}},
    {"name": "c", "stages": {"block": "hull.stl"}, "scale": 2}]})");
  EXPECT_EQ(loaded.assembly.part(PartId{0}).mesh, loaded.assembly.part(PartId{1}).mesh);
  EXPECT_NE(loaded.assembly.part(PartId{0}).mesh, loaded.assembly.part(PartId{2}).mesh);
}

TEST_F(LoadingAssemblies, TheStageInUseIsRead) {
  const LoadedAssembly loaded = loadWell(R"({"swingroom": 1, "parts": [
    {"name": "a", "stages": {"block": "gone.stl", "detail": "hull.stl"}, "use": "detail"}]})");
  EXPECT_EQ(loaded.assembly.part(PartId{0}).mesh->vertices.size(), 8u);
}

TEST_F(LoadingAssemblies, WithoutANameItIsCalledAsItsFile) {
  EXPECT_EQ(loadWell(onePart(R"("use": "block")")).assembly.name(), "boat");
  EXPECT_EQ(loadWell(kBoat).assembly.name(), "Boat");
}

TEST_F(LoadingAssemblies, ThreadsDoNotChangeWhatIsTold) {
  writeStl("hull.stl",
           shapes::joined({shapes::box({0, 0, 0}, {1, 1, 1}), shapes::box({2, 0, 0}, {3, 1, 1})}));
  const std::string text = patchedBoat(R"([{"op": "add", "path": "/x", "value": 1}])");
  EXPECT_EQ(textOf(load(text, 1)->notes), textOf(load(text, 4)->notes));
}

TEST_F(LoadingAssemblies, JointsAtZeroForLackOfANameAreNotedInOneLine) {
  const LoadedAssembly boat = loadWell(patchedBoat(R"([
    {"op": "replace", "path": "/modes/0/values", "value": {}}])"));
  const std::string notes = textOf(boat.notes);
  // Not the follower, nor the clip that does not hold.
  EXPECT_NE(notes.find("#/modes/0: the joints not named are at 0: \"shoulder\", \"wrist\", \"deck "
                       "clip\" and \"neck\"\n"),
            std::string::npos)
      << notes;
  EXPECT_EQ(notes.find("#/modes/1"), std::string::npos) << notes;
}

TEST_F(LoadingAssemblies, WhatIsWorthKnowingIsNoted) {
  TriangleMesh open = shapes::box({0, 0, 0}, {10, 20, 30});
  open.triangles.pop_back();
  writeStl("arm.stl", open);
  const std::string absolute = nlohmann::json((folder_ / "hand.stl").string()).dump();
  const LoadedAssembly boat = loadWell(patchedBoat((R"([
    {"op": "add", "path": "/parts/-", "value": {"name": "pin", "kind": "bought", "price": 3}},
    {"op": "replace", "path": "/parts/2/stages/block", "value": )" +
                                                    absolute + "}]")
                                                       .c_str()));
  const std::string notes = textOf(boat.notes);
  for (const std::string& words :
       {std::string("#/parts/6: \"pin\" has no mesh"),
        std::string("#/parts/6/price: is an unknown key"),
        std::string("#/parts/2/stages/block: is an absolute path"),
        (folder_ / "arm.stl").string() + ": ", std::string("mm is taken for 6 of 6 mesh files")}) {
    EXPECT_NE(notes.find(words), std::string::npos) << words << " in:\n" << notes;
  }
}

TEST_F(LoadingAssemblies, MovingAJointThatDoesNotHoldItsPartIsNoted) {
  const LoadedAssembly boat = loadWell(patchedBoat(R"([
    {"op": "add", "path": "/sequences/0/steps/0/moves/hand clip", "value": 3}])"));
  EXPECT_NE(textOf(boat.notes).find("/moves/hand clip: moves nothing: \"axe\""), std::string::npos);
  EXPECT_EQ(valueIn(boat, boat.sequences[0].steps[2].end, "hand clip").x(), 3);
}

// Closed form: a tilt by 30 degrees about x after a twist by 20 about z.
TEST(SwingTwist, TiltAfterTwistIsTakenApart) {
  const Eigen::Quaterniond tilt(Eigen::AngleAxisd(radFromDeg(30), Vector3d::UnitX()));
  const Eigen::Quaterniond twist(Eigen::AngleAxisd(radFromDeg(-20), Vector3d::UnitZ()));
  const Eigen::AngleAxisd turn(tilt * twist);
  const SwingTwist parts = swingTwistOf(turn.angle() * turn.axis(), Vector3d::UnitZ());
  EXPECT_NEAR(degFromRad(parts.swingRad), 30, 1e-9);
  EXPECT_NEAR(degFromRad(parts.twistRad), -20, 1e-9);
}

}  // namespace
}  // namespace swingroom
