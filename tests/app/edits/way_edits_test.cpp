// Expected documents are the boat of load_fixture.h with patches written by hand.
#include "app/edits/way_edits.h"

#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

TEST(WayEdits, ANewWayHasEveryJointInOneStepAndHandsFirst) {
  const auto edited = edits::addWay(boat(), "sit", "robot", "boat");
  // The slide of the mount that lets go is set by the hand: it is not the step's to move.
  expectBoat(
      edited,
      R"([{"op": "add", "path": "/sequences/-", "value": {"name": "sit", "from": "robot", "to": "boat",
    "steps": [{"name": "move axe over", "replug": {"part": "axe", "onto": "deck clip"}},
              {"name": "all together", "moves": {"shoulder": 0, "wrist": 0, "neck": [0, 0, 0]}}]}}])");
}

TEST(WayEdits, TheHandThatMovesAPartOverSetsItsJoints) {
  // As in the boat's own way: no step moves "hand clip", which ends at 3.
  const auto edited = edits::addWay(boat(), "again", "boat", "robot");
  expectBoat(
      edited,
      R"([{"op": "add", "path": "/sequences/-", "value": {"name": "again", "from": "boat", "to": "robot",
    "steps": [{"name": "move axe over", "replug": {"part": "axe", "onto": "hand clip"}},
              {"name": "all together", "moves": {"shoulder": 90, "wrist": 10, "neck": [0, 0, 5]}}]}}])");
}

TEST(WayEdits, ANewWayNeedsAFreeNameAndModes) {
  expectRefused(edits::addWay(boat(), "rise", "robot", "boat").problems(), "\"rise 2\" is free");
  expectRefused(edits::addWay(boat(), "x", "robot", "ship").problems(), "not there");
}

TEST(WayEdits, TheWayBackEndsWhereTheWayBegan) {
  expectBoat(edits::reverseWay(boat(), "rise", "sit"),
             R"([{"op": "add", "path": "/sequences/-", "value":
    {"name": "sit", "from": "robot", "to": "boat", "steps": [
      {"name": "grab", "replug": {"part": "axe", "onto": "deck clip"}},
      {"name": "reach", "moves": {"wrist": 0, "neck": [0, 0, 0]}, "order": "free"},
      {"name": "lift", "moves": {"shoulder": 0}}]}}])");
}

TEST(WayEdits, TheWayBackOfTheWayBackGoesTheSameSteps) {
  const auto back = edits::reverseWay(boat(), "rise", "sit");
  ASSERT_TRUE(back.ok());
  const auto again = edits::reverseWay(*back, "sit", "rise again");
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(again->sequences[2].steps, boat().sequences[0].steps);
}

TEST(WayEdits, RenamingAWayWithoutStepsKeepsItsStepInContacts) {
  const char* const plain = R"([{"op": "remove", "path": "/sequences/0/steps"},
    {"op": "replace", "path": "/modes/1/mounts/axe", "value": "deck clip"},
    {"op": "replace", "path": "/pairs/0/contacts/0/steps", "value": ["rise"]}])";
  const auto edited = edits::renameWay(boatWith(plain), "rise", "stand up");
  ASSERT_TRUE(edited.ok());
  EXPECT_EQ(edited->pairs[0].contacts[0].steps, std::vector<std::string>{"stand up"});
  EXPECT_TRUE(mistakesIn(*edited).empty()) << textOf(mistakesIn(*edited));
  expectBoat(edits::renameWay(boat(), "rise", "stand up"), R"([
    {"op": "replace", "path": "/sequences/0/name", "value": "stand up"}])");
}

TEST(WayEdits, ADuplicateIsCoveredByTheSameContactsAndGoesAlone) {
  const auto twice = edits::duplicateWay(boat(), "rise", "rise 2");
  ASSERT_TRUE(twice.ok());
  EXPECT_TRUE(mistakesIn(*twice).empty());
  EXPECT_EQ(twice->sequences[1].steps, boat().sequences[0].steps);
  const auto removal = edits::removeWay(*twice, "rise 2");
  ASSERT_TRUE(removal.ok());
  EXPECT_TRUE(removal->also.empty());
  expectBoat(removal->document, "[]");
}

TEST(WayEdits, WithAWayGoContactsThatCoverNothingElse) {
  const char* const stepsOnly = R"([{"op": "remove", "path": "/pairs/0/contacts/0/modes"}])";
  const auto removal = edits::removeWay(boatWith(stepsOnly), "rise");
  ASSERT_TRUE(removal.ok());
  EXPECT_EQ(removal->also, std::vector<std::string>{"1 contact"});
  expectBoat(
      removal->document,
      R"([{"op": "remove", "path": "/sequences"}, {"op": "remove", "path": "/pairs/0/contacts"}])");
}

TEST(WayEdits, WhatIsShortIsToldByJointAndAmountAndFinishingAddsIt) {
  const char* const shortened = R"([
    {"op": "replace", "path": "/sequences/0/steps/0/moves/shoulder", "value": 77.5},
    {"op": "remove", "path": "/sequences/0/steps/1/moves/wrist"},
    {"op": "remove", "path": "/sequences/0/steps/2"}])";
  const AssemblyDocument document = boatWith(shortened);
  EXPECT_EQ(
      edits::shortBy(document, "rise"),
      (std::vector<std::string>{"\"shoulder\" at 77.5°, 12.5° short",
                                "\"wrist\" at 0 mm, 10 mm short", "\"axe\" on another mount"}));
  EXPECT_FALSE(mistakesIn(document).empty());
  const auto finished = edits::finishWay(document, "rise");
  expectBoat(finished, R"([
    {"op": "replace", "path": "/sequences/0/steps/0/moves/shoulder", "value": 77.5},
    {"op": "remove", "path": "/sequences/0/steps/1/moves/wrist"},
    {"op": "remove", "path": "/sequences/0/steps/2"},
    {"op": "add", "path": "/sequences/0/steps/-", "value": {"name": "move axe over", "replug": {"part": "axe", "onto": "hand clip"}}},
    {"op": "add", "path": "/sequences/0/steps/-", "value": {"name": "finish", "moves": {"shoulder": 90, "wrist": 10}}}])");
}

TEST(WayEdits, AWholeWayIsNotChangedByFinishingIt) {
  EXPECT_TRUE(edits::shortBy(boat(), "rise").empty());
  expectBoat(edits::finishWay(boat(), "rise"), "[]");
}

TEST(WayEdits, AWayThatIsShortHasNoWayBack) {
  const char* const shortened = R"([{"op": "remove", "path": "/sequences/0/steps/0"}])";
  expectRefused(edits::reverseWay(boatWith(shortened), "rise", "sit").problems(), "finish");
}

}  // namespace
}  // namespace swingroom
