// Expected documents are the boat of load_fixture.h with patches written by hand.
#include "app/edits/rig_edits.h"

#include <cmath>

#include "tests/app/edits/same_motion.h"

namespace swingroom {
namespace {

using edits::Removal;

edits::Edited only(const Outcome<Removal>& removal) {
  if (!removal) return removal.problems();
  return removal->document;
}

std::string alsoOf(const Outcome<Removal>& removal) {
  std::string text;
  if (removal) {
    for (const std::string& clause : removal->also) text += clause + "; ";
  }
  return text;
}

DocumentJoint hinge(const char* parent, const char* child) {
  DocumentJoint joint;
  joint.type = JointType::hinge;
  joint.parent = parent;
  joint.child = child;
  joint.through = ThreeNumbers{1, 2, 3};
  joint.along = ThreeNumbers{0, 0, 1};
  return joint;
}

TEST(RigEdits, AJointIsAddedAtZeroInEveryMode) {
  DocumentJoint added = hinge("wheel", "arm");
  added.parent = "hull";  // One more of the arm's mount.
  added.range = TwoNumbers{10, 40};
  expectBoat(edits::addJoint(boat(), added), R"([
    {"op": "add", "path": "/joints/-", "value": {"name": "arm hinge", "type": "hinge", "parent": "hull",
      "child": "arm", "through": [1, 2, 3], "along": [0, 0, 1], "range": [10, 40]}},
    {"op": "add", "path": "/modes/0/values/arm hinge", "value": 10},
    {"op": "add", "path": "/modes/1/values/arm hinge", "value": 10}])");
}

TEST(RigEdits, AJointToAnotherParentIsAMountThatNoModeHasYet) {
  expectBoat(edits::addJoint(boat(), hinge("arm", "wheel")), R"([
    {"op": "add", "path": "/joints/-", "value": {"name": "wheel hinge", "type": "hinge", "parent": "arm",
      "child": "wheel", "through": [1, 2, 3], "along": [0, 0, 1]}},
    {"op": "add", "path": "/modes/0/mounts/wheel", "value": "axle"},
    {"op": "add", "path": "/modes/1/mounts/wheel", "value": "axle"}])");
}

TEST(RigEdits, AnAddedJointGetsAFreeName) {
  DocumentJoint added = hinge("hull", "arm");
  added.name = " neck ";
  EXPECT_EQ(edits::addJoint(boat(), added)->joints.back().name, "neck 2");
  DocumentJoint fixed;
  fixed.child = "hull";
  EXPECT_EQ(edits::jointNameFor(boat(), fixed), "hull on the ground");
  fixed.parent = "big_wheel";
  EXPECT_EQ(edits::jointNameFor(boat(), fixed), "hull on big wheel");
}

TEST(RigEdits, AJointThatMakesNoSenseIsRefused) {
  expectRefused(edits::addJoint(boat(), hinge("hand", "hull")).problems(), "ring");
  expectRefused(edits::addJoint(boat(), hinge("oar", "hull")).problems(), "not there");
  expectRefused(edits::addJoint(boat(), hinge("hull", "oar")).problems(), "not there");
  DocumentJoint bare = hinge("hull", "arm");
  bare.along = ThreeNumbers{0, 0, 0};
  expectRefused(edits::addJoint(boat(), bare).problems(), "no direction");
  bare.along = std::nullopt;
  expectRefused(edits::addJoint(boat(), bare).problems(), "along");
  bare.along = ThreeNumbers{0, std::nan(""), 1};
  expectRefused(edits::addJoint(boat(), bare).problems(), "number");
}

TEST(RigEdits, RemovingAJointTakesItsValuesAndMoves) {
  const auto removal = edits::removeJoint(boat(), "neck");
  expectBoat(only(removal), R"([
    {"op": "remove", "path": "/joints/4"},
    {"op": "remove", "path": "/modes/0/values/neck"},
    {"op": "remove", "path": "/modes/1/values/neck"},
    {"op": "remove", "path": "/sequences/0/steps/1/moves/neck"}])");
  EXPECT_EQ(alsoOf(removal), "\"head\" stands still then; ");
}

TEST(RigEdits, AFollowerGoesOnByItself) {
  const auto removal = edits::removeJoint(boat(), "shoulder");
  const char* const expected = R"([
    {"op": "remove", "path": "/joints/5/follows"},
    {"op": "remove", "path": "/joints/0"},
    {"op": "remove", "path": "/modes/0/values/shoulder"},
    {"op": "remove", "path": "/modes/1/values/shoulder"},
    {"op": "add", "path": "/modes/0/values/axle", "value": 0},
    {"op": "add", "path": "/modes/1/values/axle", "value": -180},
    {"op": "replace", "path": "/sequences/0/steps/0/moves", "value": {"axle": -180}}])";
  expectBoat(only(removal), expected);
  EXPECT_NE(alsoOf(removal).find("\"axle\" has values of its own"), std::string::npos);
}

TEST(RigEdits, AStepThatMovedNothingElseGoesWithItsContacts) {
  const char* const alone = R"([{"op": "remove", "path": "/joints/5"}])";
  const auto removal = edits::removeJoint(boatWith(alone), "shoulder");
  expectBoat(only(removal), R"([
    {"op": "remove", "path": "/joints/5"}, {"op": "remove", "path": "/joints/0"},
    {"op": "remove", "path": "/modes/0/values/shoulder"},
    {"op": "remove", "path": "/modes/1/values/shoulder"},
    {"op": "remove", "path": "/sequences/0/steps/0"},
    {"op": "remove", "path": "/pairs/0/contacts/0/steps"}])");
  EXPECT_NE(alsoOf(removal).find("the step \"lift\""), std::string::npos) << alsoOf(removal);
}

TEST(RigEdits, WithOneMountLeftNoModeNamesIt) {
  expectBoat(only(edits::removeJoint(boat(), "hand clip")), R"([
    {"op": "remove", "path": "/joints/3"},
    {"op": "remove", "path": "/modes/0/mounts"}, {"op": "remove", "path": "/modes/1/mounts"},
    {"op": "remove", "path": "/modes/1/values/hand clip"},
    {"op": "remove", "path": "/sequences/0/steps/2"}])");
}

TEST(RigEdits, AWayThatIsShortThenGetsALastStep) {
  const auto removal = edits::removeJoint(boat(), "deck clip");
  expectBoat(only(removal), R"([
    {"op": "remove", "path": "/joints/2"},
    {"op": "remove", "path": "/modes/0/mounts"}, {"op": "remove", "path": "/modes/1/mounts"},
    {"op": "remove", "path": "/modes/0/values/deck clip"},
    {"op": "replace", "path": "/sequences/0/steps/2", "value": {"name": "finish", "moves": {"hand clip": 3}}}])");
  EXPECT_NE(alsoOf(removal).find("the way \"rise\" gets a last step"), std::string::npos);
}

TEST(RigEdits, RenamingReachesEveryPlace) {
  expectBoat(edits::renameJoint(boat(), "shoulder", "lifter"), R"([
    {"op": "replace", "path": "/joints/0/name", "value": "lifter"},
    {"op": "replace", "path": "/joints/5/follows/joint", "value": "lifter"},
    {"op": "move", "from": "/modes/0/values/shoulder", "path": "/modes/0/values/lifter"},
    {"op": "move", "from": "/modes/1/values/shoulder", "path": "/modes/1/values/lifter"},
    {"op": "replace", "path": "/sequences/0/steps/0/moves", "value": {"lifter": 90}}])");
  expectBoat(edits::renameJoint(boat(), "hand clip", "grip"), R"([
    {"op": "replace", "path": "/joints/3/name", "value": "grip"},
    {"op": "move", "from": "/modes/1/values/hand clip", "path": "/modes/1/values/grip"},
    {"op": "replace", "path": "/modes/1/mounts/axe", "value": "grip"},
    {"op": "replace", "path": "/sequences/0/steps/2/replug/onto", "value": "grip"}])");
  expectRefused(edits::renameJoint(boat(), "neck", "wrist").problems(), "taken");
  expectRefused(edits::renameJoint(boat(), "knee", "x").problems(), "not there");
}

TEST(RigEdits, RenamingReachesWhatVariantsReplace) {
  const char* const variant = R"([{"op": "add", "path": "/variants/0/replace/joints", "value":
    [{"name": "axle", "child": "wheel", "follows": {"joint": "shoulder"}}]}])";
  const auto edited = edits::renameJoint(boatWith(variant), "shoulder", "lifter");
  ASSERT_TRUE(edited.ok()) << textOf(edited.problems());
  EXPECT_NE(edited->variants[0].replace.find(R"("follows":{"joint":"lifter"})"), std::string::npos);
  const auto removed = edits::removeJoint(boatWith(variant), "axle");
  ASSERT_TRUE(removed.ok()) << textOf(removed.problems());
  EXPECT_NE(alsoOf(removed).find("variants"), std::string::npos);
}

TEST(RigEdits, ReversingChangesEverySign) {
  expectBoat(edits::reverseJoint(boat(), "shoulder"), R"([
    {"op": "replace", "path": "/joints/0/along", "value": [0, -2, 0]},
    {"op": "replace", "path": "/joints/5/follows/ratio", "value": 2},
    {"op": "replace", "path": "/modes/1/values/shoulder", "value": -90},
    {"op": "replace", "path": "/sequences/0/steps/0/moves/shoulder", "value": -90}])");
  const char* const zoned = R"([
    {"op": "add", "path": "/joints/1/through", "value": [0, 0, 0]},
    {"op": "add", "path": "/joints/1/zones", "value": [{"radius": 2, "from": -1, "to": 4}]}])";
  const auto slide = edits::reverseJoint(boatWith(zoned), "wrist");
  expectBoat(slide, R"([
    {"op": "add", "path": "/joints/1/through", "value": [0, 0, 0]},
    {"op": "add", "path": "/joints/1/zones", "value": [{"radius": 2, "from": -4, "to": 1}]},
    {"op": "replace", "path": "/joints/1/along", "value": [0, 0, -5]},
    {"op": "replace", "path": "/joints/1/range", "value": [-20, 0]},
    {"op": "replace", "path": "/joints/1/clicks", "value": [-20, -10, 0]},
    {"op": "replace", "path": "/modes/1/values/wrist", "value": -10},
    {"op": "replace", "path": "/sequences/0/steps/1/moves/wrist", "value": -10}])");
  expectBoat(edits::reverseJoint(boat(), "axle"), R"([
    {"op": "replace", "path": "/joints/5/along", "value": [0, -1, 0]},
    {"op": "replace", "path": "/joints/5/follows/ratio", "value": 2}])");
}

TEST(RigEdits, ReversingMovesNothing) {
  for (const char* joint : {"shoulder", "wrist", "deck clip", "hand clip", "neck", "axle"}) {
    const auto edited = edits::reverseJoint(boat(), joint);
    ASSERT_TRUE(edited.ok()) << joint << textOf(edited.problems());
    expectSameMotion(boat(), *edited);
    EXPECT_TRUE(*edits::reverseJoint(*edited, joint) == boat()) << joint;
  }
}

TEST(RigEdits, ReparentingMovesTheWholeMount) {
  expectBoat(only(edits::reparentJoint(boat(), "neck", "arm")),
             R"([{"op": "replace", "path": "/joints/4/parent", "value": "arm"}])");
  expectBoat(only(edits::reparentJoint(boat(), "neck", std::nullopt)),
             R"([{"op": "remove", "path": "/joints/4/parent"}])");
  expectRefused(edits::reparentJoint(boat(), "shoulder", "hand").problems(), "ring");
  expectRefused(edits::reparentJoint(boat(), "shoulder", "arm").problems(), "on itself");
}

TEST(RigEdits, TwoMountsOnOneParentBecomeOne) {
  expectBoat(only(edits::reparentJoint(boat(), "hand clip", "hull")), R"([
    {"op": "replace", "path": "/joints/3/parent", "value": "hull"},
    {"op": "remove", "path": "/modes/0/mounts"}, {"op": "remove", "path": "/modes/1/mounts"},
    {"op": "replace", "path": "/sequences/0/steps/2", "value": {"name": "finish", "moves": {"hand clip": 3}}}])");
}

TEST(RigEdits, GroundingTurnsTheJointsRound) {
  const auto removal = edits::groundPart(boat(), "hand");
  expectBoat(only(removal), R"([
    {"op": "replace", "path": "/joints/0/parent", "value": "arm"},
    {"op": "replace", "path": "/joints/0/child", "value": "hull"},
    {"op": "replace", "path": "/joints/0/along", "value": [0, -2, 0]},
    {"op": "replace", "path": "/joints/1/parent", "value": "hand"},
    {"op": "replace", "path": "/joints/1/child", "value": "arm"},
    {"op": "replace", "path": "/joints/1/along", "value": [0, 0, -5]}])");
  expectSameMotion(boat(), removal->document);
  const auto head = edits::groundPart(boat(), "head");
  ASSERT_TRUE(head.ok()) << textOf(head.problems());
  expectSameMotion(boat(), head->document);
  expectRefused(edits::groundPart(boat(), "axe").problems(), "several ways");
  EXPECT_TRUE(*only(edits::groundPart(boat(), "hull")) == boat());
}

TEST(RigEdits, GroundingDropsJointsToTheGround) {
  const char* const lifted = R"([
    {"op": "add", "path": "/joints/0", "value": {"name": "lift", "type": "slide", "child": "hull", "along": [0, 0, 1]}},
    {"op": "add", "path": "/modes/1/values/lift", "value": 7},
    {"op": "add", "path": "/sequences/0/steps/0/moves/lift", "value": 7}])";
  const auto removal = edits::groundPart(boatWith(lifted), "hull");
  expectBoat(only(removal), "[]");
  EXPECT_NE(alsoOf(removal).find("\"lift\" to the ground"), std::string::npos) << alsoOf(removal);
}

TEST(RigEdits, AHingeBecomesABallThatTurnsAsIt) {
  const auto removal = edits::retypeJoint(boat(), "shoulder", JointType::ball);
  expectBoat(only(removal), R"([
    {"op": "replace", "path": "/joints/0/type", "value": "ball"},
    {"op": "remove", "path": "/joints/0/range"},
    {"op": "remove", "path": "/joints/5/follows"},
    {"op": "replace", "path": "/modes/0/values/shoulder", "value": [0, 0, 0]},
    {"op": "replace", "path": "/modes/1/values/shoulder", "value": [0, 90, 0]},
    {"op": "add", "path": "/modes/0/values/axle", "value": 0},
    {"op": "add", "path": "/modes/1/values/axle", "value": -180},
    {"op": "replace", "path": "/sequences/0/steps/0/moves", "value": {"shoulder": [0, 90, 0], "axle": -180}}])");
  expectSameMotion(boat(), removal->document);
  expectSameMotion(boat(),
                   *only(edits::retypeJoint(removal->document, "shoulder", JointType::hinge)));
}

TEST(RigEdits, ABallBecomesAHingeAboutItsAxis) {
  expectBoat(only(edits::retypeJoint(boat(), "neck", JointType::hinge)), R"([
    {"op": "replace", "path": "/joints/4/type", "value": "hinge"},
    {"op": "replace", "path": "/joints/4/range", "value": [-10, 10]},
    {"op": "replace", "path": "/modes/0/values/neck", "value": 0},
    {"op": "replace", "path": "/modes/1/values/neck", "value": 5},
    {"op": "replace", "path": "/sequences/0/steps/1/moves/neck", "value": 5}])");
  const auto across =
      edits::retypeJoint(boat(), "neck", JointType::hinge, {std::nullopt, ThreeNumbers{0, 1, 0}});
  ASSERT_TRUE(across.ok()) << textOf(across.problems());
  EXPECT_NE(alsoOf(across).find("other axes"), std::string::npos);
}

TEST(RigEdits, ValuesThatCannotBeKeptGoToZero) {
  const auto fixed = edits::retypeJoint(boat(), "wrist", JointType::fixed);
  expectBoat(only(fixed), R"([
    {"op": "replace", "path": "/joints/1/type", "value": "fixed"},
    {"op": "remove", "path": "/joints/1/range"}, {"op": "remove", "path": "/joints/1/clicks"},
    {"op": "remove", "path": "/modes/0/values/wrist"}, {"op": "remove", "path": "/modes/1/values/wrist"},
    {"op": "remove", "path": "/sequences/0/steps/1/moves/wrist"}])");
  expectBoat(
      only(edits::retypeJoint(boat(), "wrist", JointType::hinge, {ThreeNumbers{1, 2, 3}, {}})), R"([
    {"op": "replace", "path": "/joints/1/type", "value": "hinge"},
    {"op": "add", "path": "/joints/1/through", "value": [1, 2, 3]},
    {"op": "remove", "path": "/joints/1/range"}, {"op": "remove", "path": "/joints/1/clicks"},
    {"op": "replace", "path": "/modes/1/values/wrist", "value": 0},
    {"op": "remove", "path": "/sequences/0/steps/1/moves/wrist"}])");
  expectRefused(edits::retypeJoint(boat(), "wrist", JointType::hinge).problems(), "through");
}

TEST(RigEdits, AxisRangeClicksFitAndZonesAreSet) {
  expectBoat(edits::setJointAxis(boat(), "shoulder", {ThreeNumbers{1, 2, 3}, {}}),
             R"([{"op": "replace", "path": "/joints/0/through", "value": [1, 2, 3]}])");
  expectBoat(edits::setJointRange(boat(), "shoulder", TwoNumbers{0, 100}),
             R"([{"op": "replace", "path": "/joints/0/range", "value": [0, 100]}])");
  expectBoat(edits::setJointRange(boat(), "shoulder", std::nullopt),
             R"([{"op": "remove", "path": "/joints/0/range"}])");
  expectBoat(edits::setJointClicks(boat(), "wrist", {10, 0, 10}),
             R"([{"op": "replace", "path": "/joints/1/clicks", "value": [0, 10]}])");
  expectBoat(edits::setJointFit(boat(), "shoulder", 0.4),
             R"([{"op": "add", "path": "/joints/0/fit", "value": 0.4}])");
  DocumentZone zone;
  zone.radius = 2;
  zone.from = -1;
  zone.to = 1;
  expectBoat(
      edits::setJointZones(boat(), "shoulder", {zone}),
      R"([{"op": "add", "path": "/joints/0/zones", "value": [{"radius": 2, "from": -1, "to": 1}]}])");
}

TEST(RigEdits, WhatAModeNeedsIsNotTakenAway) {
  const auto narrow = edits::setJointRange(boat(), "shoulder", TwoNumbers{0, 45}).problems();
  expectRefused(narrow, "outside the range");
  EXPECT_EQ(narrow.front().where, "mode \"robot\"") << "a place that the maker knows";
  expectRefused(edits::setJointClicks(boat(), "wrist", {0, 20}).problems(), "does not click");
  expectRefused(edits::setJointRange(boat(), "neck", TwoNumbers{0, 45}).problems(), "swing");
  expectRefused(edits::setJointRange(boat(), "shoulder", TwoNumbers{90, 0}).problems(), "down to");
}

TEST(RigEdits, FollowingTakesThePlaceOfValues) {
  DocumentFollows follows;
  follows.joint = "shoulder";
  follows.ratio = 0.125;
  const auto removal = edits::setJointFollows(boatWith(R"([
    {"op": "remove", "path": "/joints/1/clicks"}])"),
                                              "wrist", follows);
  expectBoat(only(removal), R"([
    {"op": "remove", "path": "/joints/1/clicks"},
    {"op": "add", "path": "/joints/1/follows", "value": {"joint": "shoulder", "ratio": 0.125}},
    {"op": "remove", "path": "/modes/0/values/wrist"}, {"op": "remove", "path": "/modes/1/values/wrist"},
    {"op": "remove", "path": "/sequences/0/steps/1/moves/wrist"}])");
  follows.joint = "axle";
  expectRefused(edits::setJointFollows(boat(), "shoulder", follows).problems(), "ring");
  follows.joint = "neck";
  expectRefused(edits::setJointFollows(boat(), "wrist", follows).problems(), "ball");
}

TEST(RigEdits, WhoFollowsNoMoreStandsWhereItDid) {
  const auto removal = edits::setJointFollows(boat(), "axle", std::nullopt);
  expectBoat(only(removal), R"([
    {"op": "remove", "path": "/joints/5/follows"},
    {"op": "add", "path": "/modes/0/values/axle", "value": 0},
    {"op": "add", "path": "/modes/1/values/axle", "value": -180},
    {"op": "add", "path": "/sequences/0/steps/0/moves/axle", "value": -180}])");
  expectSameMotion(boat(), removal->document);
}

}  // namespace
}  // namespace swingroom
