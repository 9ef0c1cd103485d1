// Expected documents are the boat of load_fixture.h with patches written by hand.
#include "app/edits/mode_edits.h"

#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

/// Between the boat's two modes: the arm half up, the axe still on deck.
WrittenStanding halfWay() {
  WrittenStanding standing;
  standing.values = {{"deck clip", 1.5},
                     {"hand clip", 2.0},
                     {"neck", ThreeNumbers{0, 0, 2}},
                     {"shoulder", 45.0},
                     {"wrist", 10.0}};
  standing.mounts = {{"axe", "deck clip"}};
  return standing;
}

TEST(ModeEdits, ANewModeHasTheValuesOfTheJointsThatHoldAndTheMounts) {
  expectBoat(edits::addMode(boat(), "half", halfWay()),
             R"([{"op": "add", "path": "/modes/-", "value":
    {"name": "half", "values": {"shoulder": 45, "wrist": 10, "neck": [0, 0, 2], "deck clip": 1.5},
     "mounts": {"axe": "deck clip"}}}])");
}

TEST(ModeEdits, ANewModeIsRefusedOffAClickOrWithATakenName) {
  WrittenStanding standing = halfWay();
  standing.values["wrist"] = 7.0;
  expectRefused(edits::addMode(boat(), "half", standing).problems(), "nearest click is 10 mm");
  expectRefused(edits::addMode(boat(), "robot", halfWay()).problems(), "\"robot 2\" is free");
  expectRefused(edits::addMode(boat(), "  ", halfWay()).problems(), "needs a name");
}

TEST(ModeEdits, RenamingReachesWaysAndContacts) {
  expectBoat(edits::renameMode(boat(), "boat", " hull down "), R"([
    {"op": "replace", "path": "/modes/0/name", "value": "hull down"},
    {"op": "replace", "path": "/sequences/0/from", "value": "hull down"},
    {"op": "replace", "path": "/pairs/0/contacts/0/modes/0", "value": "hull down"}])");
}

TEST(ModeEdits, RenamingReachesWhatVariantsReplace) {
  const char* const variant = R"([{"op": "add", "path": "/variants/0/replace/pairs", "value":
    [{"parts": ["hull", "arm"], "contacts": [{"kind": "rest", "modes": ["boat", "robot"]}]}]}])";
  const auto edited = edits::renameMode(boatWith(variant), "robot", "figure");
  ASSERT_TRUE(edited.ok());
  EXPECT_EQ(edited->variants[0].replace,
            R"({"pairs":[{"contacts":[{"kind":"rest","modes":["boat","figure"]}],)"
            R"("parts":["hull","arm"]}],"parts":[{"name":"head","stages":{"block":"big.stl"}}]})");
}

TEST(ModeEdits, RenamingThereAndBackGivesTheSameBytes) {
  const auto there = edits::renameMode(boat(), "robot", "figure");
  ASSERT_TRUE(there.ok());
  const auto back = edits::renameMode(*there, "figure", "robot");
  ASSERT_TRUE(back.ok());
  EXPECT_EQ(writeDocument(*back), writeDocument(boat()));
  expectRefused(edits::renameMode(boat(), "robot", "boat").problems(), "taken");
  expectRefused(edits::renameMode(boat(), "ship", "x").problems(), "not there");
}

TEST(ModeEdits, ADuplicateStandsBehindTheFirstAndContactsCoverIt) {
  expectBoat(edits::duplicateMode(boat(), "boat", "boat 2"), R"([
    {"op": "add", "path": "/modes/1", "value": {"name": "boat 2",
      "values": {"shoulder": 0, "wrist": 0, "neck": [0, 0, 0], "deck clip": 0}, "mounts": {"axe": "deck clip"}}},
    {"op": "add", "path": "/pairs/0/contacts/0/modes/1", "value": "boat 2"}])");
}

TEST(ModeEdits, WithAModeGoTheWaysThatEndInItAndContactsThatCoverNothingElse) {
  const auto removal = edits::removeMode(boat(), "robot");
  ASSERT_TRUE(removal.ok());
  EXPECT_EQ(removal->also, std::vector<std::string>{"the way \"rise\""});
  // The contact still covers mode "boat", but not the step of the way that went.
  expectBoat(removal->document,
             R"([{"op": "remove", "path": "/modes/1"}, {"op": "remove", "path": "/sequences"},
    {"op": "remove", "path": "/pairs/0/contacts/0/steps"}])");
  const auto first = edits::removeMode(boat(), "boat");
  ASSERT_TRUE(first.ok());
  EXPECT_EQ(first->also, (std::vector<std::string>{"the way \"rise\"", "1 contact"}));
  expectBoat(first->document,
             R"([{"op": "remove", "path": "/modes/0"}, {"op": "remove", "path": "/sequences"},
    {"op": "remove", "path": "/pairs/0/contacts"}])");
}

TEST(ModeEdits, SettingAModeNamesOnlyWhatItMust) {
  // The second mode names no wrist at first: it is at 0 then.
  const char* const unnamed = R"([{"op": "remove", "path": "/modes/0/values/wrist"},
                                  {"op": "remove", "path": "/modes/0/values/neck"}])";
  WrittenStanding standing = standingIn(boatWith(unnamed), "boat");
  standing.values["wrist"] = 20.0;
  standing.values["shoulder"] = -12.5;
  const auto edited = edits::setMode(boatWith(unnamed), "boat", standing);
  ASSERT_TRUE(edited.ok());
  EXPECT_TRUE(*edited == boatWith(R"([{"op": "replace", "path": "/modes/0/values", "value":
    {"deck clip": 0, "shoulder": -12.5, "wrist": 20}}])"));
}

TEST(ModeEdits, SettingAModeToWhereItIsChangesNothing) {
  for (const char* mode : {"boat", "robot"}) {
    expectBoat(edits::setMode(boat(), mode, standingIn(boat(), mode)), "[]");
  }
}

TEST(ModeEdits, SettingAModeTakesItsMountFromTheStanding) {
  const auto edited = edits::setMode(boat(), "boat", standingIn(boat(), "robot"));
  ASSERT_TRUE(edited.ok());
  EXPECT_EQ(edited->modes[0].mounts.at("axe"), "hand clip");
  EXPECT_EQ(edited->modes[0].values->at("hand clip"), DocumentValue(3.0));
}

TEST(ModeEdits, PlacementsBecomeValuesOfJointsThatAreThenWritten) {
  // A part without a joint that a mode places elsewhere: it slides 7 along x.
  const char* const placed = R"([
    {"op": "remove", "path": "/joints/1"}, {"op": "remove", "path": "/joints/1"}, {"op": "remove", "path": "/joints/1"},
    {"op": "remove", "path": "/sequences"}, {"op": "remove", "path": "/pairs"},
    {"op": "replace", "path": "/modes", "value": [{"name": "near", "values": {"shoulder": 0, "neck": [0, 0, 0]}},
      {"name": "far", "placements": {"axe": {"at": [7, 0, 0]}}}]}])";
  const AssemblyDocument document = boatWith(placed);
  ASSERT_TRUE(mistakesIn(document).empty()) << textOf(mistakesIn(document));
  const auto edited = edits::setMode(document, "far", standingIn(document, "far"));
  ASSERT_TRUE(edited.ok()) << textOf(edited.problems());
  EXPECT_FALSE(edited->modes[1].placements.has_value());
  EXPECT_TRUE(mistakesIn(*edited).empty()) << textOf(mistakesIn(*edited));
  ASSERT_EQ(edited->joints.size(), document.joints.size() + 1);
  const DocumentJoint& written = edited->joints.back();
  EXPECT_EQ(written.child, "axe");
  EXPECT_EQ(written.type, JointType::slide);
  EXPECT_NEAR(std::get<double>(edited->modes[1].values->at(written.name)), 7, 1e-6);
}

TEST(ModeEdits, OneValueIsSetOrRefused) {
  expectBoat(edits::setModeValue(boat(), "boat", "deck clip", 2.5), R"([
    {"op": "replace", "path": "/modes/0/values/deck clip", "value": 2.5}])");
  expectRefused(edits::setModeValue(boat(), "robot", "shoulder", 91.0).problems(), "range");
  expectRefused(edits::setModeValue(boat(), "robot", "axle", 91.0).problems(), "axle");
  expectRefused(edits::setModeValue(boat(), "robot", "neck", 1.0).problems(), "neck");
}

}  // namespace
}  // namespace swingroom
