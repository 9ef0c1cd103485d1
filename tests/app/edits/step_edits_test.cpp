// Expected documents are the boat of load_fixture.h with patches written by hand.
#include "app/edits/step_edits.h"

#include "app/session/document/open_document.h"
#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

using edits::StepAt;

TEST(StepEdits, RenamingReachesContacts) {
  expectBoat(edits::renameStep(boat(), {"rise", 0}, "arm up"), R"([
    {"op": "replace", "path": "/sequences/0/steps/0/name", "value": "arm up"},
    {"op": "replace", "path": "/pairs/0/contacts/0/steps/0", "value": "arm up"}])");
  expectRefused(edits::renameStep(boat(), {"rise", 0}, "reach").problems(), "taken");
  expectRefused(edits::renameStep(boat(), {"rise", 3}, "x").problems(), "not there");
  expectRefused(edits::renameStep(boat(), {"fall", 0}, "x").problems(), "not there");
}

/// A second way with a step that is called as one of the first.
const char* const kTwoWays = R"([{"op": "add", "path": "/sequences/-", "value":
  {"name": "again", "from": "boat", "to": "robot", "steps": [
    {"name": "lift", "moves": {"shoulder": 90, "wrist": 10, "neck": [0, 0, 5]}},
    {"name": "take", "replug": {"part": "axe", "onto": "hand clip"}}]}}])";

TEST(StepEdits, ContactsGoOnCoveringTheStepOfThatNameInAnotherWay) {
  const auto edited = edits::renameStep(boatWith(kTwoWays), {"again", 0}, "all up");
  ASSERT_TRUE(edited.ok());
  EXPECT_EQ(edited->pairs[0].contacts[0].steps, (std::vector<std::string>{"lift", "all up"}));
  const auto back = edits::renameStep(*edited, {"again", 0}, "lift");
  ASSERT_TRUE(back.ok()) << textOf(back.problems());
  EXPECT_EQ(writeDocument(*back), writeDocument(boatWith(kTwoWays)));
}

TEST(StepEdits, ANameByWhichAContactWouldCoverAnotherStepIsRefused) {
  // Contacts say nothing of "grab" and "take", but excuse "lift".
  EXPECT_TRUE(edits::renameStep(boatWith(kTwoWays), {"rise", 2}, "take").ok());
  expectRefused(edits::renameStep(boatWith(kTwoWays), {"rise", 0}, "take").problems(), "contacts");
  expectRefused(edits::renameStep(boatWith(kTwoWays), {"again", 1}, "lift").problems(), "taken");
}

TEST(StepEdits, ANewStepMovesWhatDiffersFromWhereItBegins) {
  WrittenStanding standing = standingIn(boat(), "boat");
  standing.values["shoulder"] = 90.0;
  standing.values["neck"] = ThreeNumbers{0, 0, 3};
  expectBoat(edits::addStep(boat(), {"rise", 1}, "look", standing), R"([
    {"op": "add", "path": "/sequences/0/steps/1", "value": {"name": "look", "moves": {"neck": [0, 0, 3]}}}])");
  expectRefused(edits::addStep(boat(), {"rise", 1}, "lift", standing).problems(), "taken");
  standing.values["neck"] = ThreeNumbers{0, 0, 0};
  expectRefused(edits::addStep(boat(), {"rise", 1}, "look", standing).problems(), "nothing");
  expectRefused(edits::addStep(boat(), {"rise", 1}, "look", standingIn(boat(), "robot")).problems(),
                "another mount");
}

TEST(StepEdits, StepsChangePlaces) {
  expectBoat(edits::moveStep(boat(), {"rise", 0}, 2), R"([
    {"op": "move", "from": "/sequences/0/steps/0", "path": "/sequences/0/steps/2"}])");
  expectBoat(edits::moveStep(boat(), {"rise", 2}, 0), R"([
    {"op": "move", "from": "/sequences/0/steps/2", "path": "/sequences/0/steps/0"}])");
  expectBoat(edits::moveStep(boat(), {"rise", 1}, 1), "[]");
}

TEST(StepEdits, AStepThatContactsKnowByItsNumberKeepsThatNameWhenItMoves) {
  const char* const unnamed = R"([{"op": "remove", "path": "/sequences/0/steps/0/name"},
    {"op": "replace", "path": "/pairs/0/contacts/0/steps", "value": ["step 1"]}])";
  const auto edited = edits::moveStep(boatWith(unnamed), {"rise", 0}, 1);
  ASSERT_TRUE(edited.ok());
  EXPECT_EQ(edited->sequences[0].steps[1].name, "step 1");
  EXPECT_TRUE(mistakesIn(*edited).empty());
}

TEST(StepEdits, TheFirstHalfEndsWithTheValuesOfItsInstant) {
  // A third of 90 degrees.
  const auto split = edits::splitStep(boat(), {"rise", 0}, 1.0 / 3);
  expectBoat(split, R"([
    {"op": "replace", "path": "/sequences/0/steps/0/moves/shoulder", "value": 30},
    {"op": "add", "path": "/sequences/0/steps/1", "value": {"name": "lift 2", "moves": {"shoulder": 90}}},
    {"op": "add", "path": "/pairs/0/contacts/0/steps/-", "value": "lift 2"}])");
}

TEST(StepEdits, ABallIsHalfWayAboutItsOneAxis) {
  const char* const off =
      R"([{"op": "replace", "path": "/modes/1/values/neck", "value": [0, 20, 0]},
    {"op": "replace", "path": "/sequences/0/steps/1/moves", "value": {"neck": [0, 20, 0]}},
    {"op": "add", "path": "/sequences/0/steps/0/moves/wrist", "value": 10},
    {"op": "add", "path": "/sequences/0/steps/1/extra key", "value": [1, 2]}])";
  const auto split = edits::splitStep(boatWith(off), {"rise", 1}, 0.5);
  ASSERT_TRUE(split.ok()) << textOf(split.problems());
  EXPECT_EQ(split->sequences[0].steps[1].moves.at("neck"), DocumentValue(ThreeNumbers{0, 10, 0}));
  EXPECT_EQ(split->sequences[0].steps[2].order, DocumentOrder::free);
}

TEST(StepEdits, SplitThenJoinedIsTheSameDocument) {
  for (const double part : {0.1, 0.25, 1.0 / 3, 0.7, 0.999}) {
    const auto split = edits::splitStep(boat(), {"rise", 0}, part);
    ASSERT_TRUE(split.ok());
    const auto joined = edits::joinSteps(*split, {"rise", 0});
    expectBoat(joined, "[]");
  }
}

TEST(StepEdits, SplittingIsRefusedOffAClickAtAnEndAndOfAHandsStep) {
  expectRefused(edits::splitStep(boat(), {"rise", 1}, 0.5).problems(), "nearest click");
  expectRefused(edits::splitStep(boat(), {"rise", 0}, 0).problems(), "at its end");
  expectRefused(edits::splitStep(boat(), {"rise", 0}, 1).problems(), "at its end");
  expectRefused(edits::splitStep(boat(), {"rise", 2}, 0.5).problems(), "by hand");
}

TEST(StepEdits, JoiningTakesTheSecondsEndsAndIsRefusedWhereItWouldChangeMoreThanThat) {
  const char* const alike = R"([{"op": "remove", "path": "/sequences/0/steps/1/order"},
                                {"op": "remove", "path": "/pairs/0/contacts/0/steps"}])";
  expectBoat(edits::joinSteps(boatWith(alike), {"rise", 0}), R"([
    {"op": "replace", "path": "/sequences/0/steps/0/moves", "value": {"shoulder": 90, "wrist": 10, "neck": [0, 0, 5]}},
    {"op": "remove", "path": "/sequences/0/steps/1"},
    {"op": "remove", "path": "/pairs/0/contacts/0/steps"}])");
  expectRefused(edits::joinSteps(boat(), {"rise", 0}).problems(), "any order");
  expectRefused(edits::joinSteps(boat(), {"rise", 1}).problems(), "hand");
  expectRefused(edits::joinSteps(boat(), {"rise", 2}).problems(), "last");
  const char* const covered = R"([{"op": "remove", "path": "/sequences/0/steps/1/order"}])";
  expectRefused(edits::joinSteps(boatWith(covered), {"rise", 0}).problems(), "contacts");
}

TEST(StepEdits, AStepGoesWithItsContactsAndWhatIsThenShortIsTold) {
  const char* const stepsOnly = R"([{"op": "remove", "path": "/pairs/0/contacts/0/modes"}])";
  const auto removal = edits::removeStep(boatWith(stepsOnly), {"rise", 0});
  ASSERT_TRUE(removal.ok());
  EXPECT_EQ(removal->also, std::vector<std::string>{"1 contact"});
  EXPECT_EQ(edits::shortBy(removal->document, "rise"),
            std::vector<std::string>{"\"shoulder\" at 0°, 90° short"});
  const auto finished = edits::finishWay(removal->document, "rise");
  ASSERT_TRUE(finished.ok());
  EXPECT_TRUE(mistakesIn(*finished).empty()) << textOf(mistakesIn(*finished));
}

TEST(StepEdits, AStepEndsWhereItStands) {
  WrittenStanding standing = standingIn(boat(), "boat");
  standing.values["shoulder"] = 90.0;
  standing.values["wrist"] = 10.0;
  // The neck is as at the start: the step does not move it any more.
  const auto edited = edits::setStepEnd(boat(), {"rise", 1}, standing);
  ASSERT_TRUE(edited.ok());
  EXPECT_EQ(edited->sequences[0].steps[1].moves, (DocumentValues{{"wrist", 10.0}}));
  EXPECT_EQ(edited->sequences[0].steps[1].order, DocumentOrder::free);
  standing.values["wrist"] = 0.0;
  expectRefused(edits::setStepEnd(boat(), {"rise", 1}, standing).problems(), "nothing");
  expectRefused(edits::setStepEnd(boat(), {"rise", 2}, standing).problems(), "by hand");
}

TEST(StepEdits, SettingAStepsEndToItsEndChangesNothing) {
  auto motion = WrittenMotion::of(boat());
  const auto stands = motion->stands(boat().sequences[0]);
  for (const std::size_t step : {0u, 1u}) {
    expectBoat(edits::setStepEnd(boat(), {"rise", step}, stands[step + 1]), "[]");
  }
}

TEST(StepEdits, OrderValuesAndWhoMovesWhatAreEditedOneByOne) {
  expectBoat(edits::setStepOrder(boat(), {"rise", 1}, DocumentOrder::together), R"([
    {"op": "remove", "path": "/sequences/0/steps/1/order"}])");
  expectBoat(edits::setMove(boat(), {"rise", 0}, "neck", ThreeNumbers{0, 0, 2}), R"([
    {"op": "add", "path": "/sequences/0/steps/0/moves/neck", "value": [0, 0, 2]}])");
  expectBoat(edits::giveMove(boat(), {"rise", 1}, "wrist", 0), R"([
    {"op": "move", "from": "/sequences/0/steps/1/moves/wrist", "path": "/sequences/0/steps/0/moves/wrist"}])");
  const auto less = edits::removeMove(boat(), {"rise", 1}, "wrist");
  ASSERT_TRUE(less.ok());
  EXPECT_EQ(edits::shortBy(*less, "rise"),
            std::vector<std::string>{"\"wrist\" at 0 mm, 10 mm short"});
  expectRefused(edits::setMove(boat(), {"rise", 0}, "wrist", 11.0).problems(), "click");
  expectRefused(edits::setMove(boat(), {"rise", 2}, "wrist", 10.0).problems(), "by hand");
  expectRefused(edits::setMove(boat(), {"rise", 0}, "elbow", 10.0).problems(), "elbow");
  expectRefused(edits::giveMove(boat(), {"rise", 0}, "wrist", 1).problems(), "does not move");
  expectRefused(edits::giveMove(boat(), {"rise", 0}, "shoulder", 2).problems(), "by hand");
}

TEST(StepEdits, EveryEditIsUndoneToTheSameBytes) {
  OpenDocument open;
  open.show(boat(), "boat.swing.json", true);
  const std::string before = writeDocument(boat());
  WrittenStanding standing = standingIn(boat(), "boat");
  standing.values["shoulder"] = 20.0;
  const auto apply = [&](const char* name, const edits::Edited& edited) {
    ASSERT_TRUE(edited.ok()) << textOf(edited.problems());
    open.edit(QString::fromLatin1(name), *edited);
  };
  apply("a", edits::renameStep(open.document(), {"rise", 0}, "up"));
  apply("b", edits::splitStep(open.document(), {"rise", 0}, 0.5));
  apply("c", edits::moveStep(open.document(), {"rise", 0}, 2));
  apply("d", edits::addMode(open.document(), "low", standing));
  apply("e", edits::addWay(open.document(), "down", "robot", "low"));
  apply("f", edits::renameMode(open.document(), "robot", "figure"));
  EXPECT_NE(writeDocument(open.document()), before);
  for (int i = 0; i < 6; ++i) open.undoStack().undo();
  EXPECT_EQ(writeDocument(open.document()), before);
  EXPECT_FALSE(open.isModified());
}

}  // namespace
}  // namespace swingroom
