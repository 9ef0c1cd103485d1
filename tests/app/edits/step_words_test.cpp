// Steps as they are typed; expected documents are the boat of load_fixture.h with patches written
// by hand.
#include "app/edits/step_words.h"

#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

edits::TypedStep typedIn(const AssemblyDocument& document, const char* words) {
  const auto typed = edits::readTypedStep(document, words);
  if (!typed) throw std::runtime_error(textOf(typed.problems()));
  return *typed;
}

edits::Edited added(const char* way, const char* words) {
  return edits::addTypedStep(boat(), way, typedIn(boat(), words));
}

TEST(StepWords, JointsAreNamedByTheirNameTheirPartOrTheBeginningOfEither) {
  const DocumentValues shoulder{{"shoulder", 40.0}};
  for (const char* words : {"shoulder 40", "Shoulder  40°", "arm 40", "shou 40"}) {
    const auto typed = edits::readTypedStep(boat(), words);
    if (std::string(words) == "shou 40") {  // Whole words only.
      expectRefused(typed.problems(), "names no joint");
      continue;
    }
    ASSERT_TRUE(typed.ok()) << words << textOf(typed.problems());
    EXPECT_EQ(typed->moves, shoulder) << words;
    EXPECT_EQ(typed->name, "shoulder");
  }
  EXPECT_EQ(typedIn(boat(), "reach: wrist 20 mm; neck 0 0 -5").moves,
            (DocumentValues{{"wrist", 20.0}, {"neck", ThreeNumbers{0, 0, -5}}}));
  EXPECT_EQ(typedIn(boat(), "reach: wrist 20").name, "reach");
}

TEST(StepWords, WordsThatFitBothSidesMeanBoth) {
  const auto two = boatWith(R"([
    {"op": "replace", "path": "/joints/0/name", "value": "fin port"},
    {"op": "replace", "path": "/joints/5", "value": {"name": "fin starboard", "type": "hinge",
      "parent": "hull", "child": "wheel", "through": [5, 0, 0], "along": [0, 1, 0]}},
    {"op": "replace", "path": "/modes", "value": []}, {"op": "replace", "path": "/sequences", "value": []},
    {"op": "replace", "path": "/pairs", "value": []}])");
  const edits::TypedStep both = typedIn(two, "fin 15");
  EXPECT_EQ(both.moves, (DocumentValues{{"fin port", 15.0}, {"fin starboard", 15.0}}));
  EXPECT_EQ(both.name, "fin");
  EXPECT_EQ(typedIn(two, "fin port 15").moves, (DocumentValues{{"fin port", 15.0}}));
}

TEST(StepWords, WhatCannotBeReadIsToldByItsClause) {
  const auto told = [](const char* words, const char* what) {
    expectRefused(edits::readTypedStep(boat(), words).problems(), what);
  };
  told("shoulder 40, elbow 3", "\"elbow 3\": names no joint that moves");
  told("shoulder", "has no number");
  told("neck 5", "takes three numbers");
  told("axle 5", "names no joint that moves");  // It follows the shoulder.
  told("shoulder 120", "\"shoulder 120\": cannot be");
  told("wrist 7", "click");
  told("axe 1", "may mean several joints");
  told(" , ", "moves nothing");
  told("shoulder 40, axe on deck clip", "two steps");
}

TEST(StepWords, AStepAtTheEndTakesTheLastModeAlong) {
  expectBoat(added("rise", "bow: arm 45, wrist 20"), R"([
    {"op": "add", "path": "/sequences/0/steps/-", "value":
      {"name": "bow", "moves": {"shoulder": 45, "wrist": 20}}},
    {"op": "replace", "path": "/modes/1/values/shoulder", "value": 45},
    {"op": "replace", "path": "/modes/1/values/wrist", "value": 20}])");
  // What stands so already is not moved.
  expectBoat(added("rise", "shoulder 90, wrist 0"), R"([
    {"op": "add", "path": "/sequences/0/steps/-", "value":
      {"name": "shoulder and wrist", "moves": {"wrist": 0}}},
    {"op": "replace", "path": "/modes/1/values/wrist", "value": 0}])");
  expectRefused(added("rise", "shoulder 90").problems(), "stands so already");
}

TEST(StepWords, APartIsMovedOverWithTheNumberOfItsNewJoint) {
  expectBoat(added("rise", "axe on deck clip 4"), R"([
    {"op": "add", "path": "/sequences/0/steps/-", "value":
      {"name": "take the axe", "replug": {"part": "axe", "onto": "deck clip"}}},
    {"op": "replace", "path": "/modes/1/mounts/axe", "value": "deck clip"},
    {"op": "add", "path": "/modes/1/values/deck clip", "value": 4}])");
}

TEST(StepWords, AWayBeginsWhereItsModeStandsAndGrowsByWhatIsTyped) {
  const auto begun = edits::beginWay(boat(), "robot", "on", "dancer");
  ASSERT_TRUE(begun.ok()) << textOf(begun.problems());
  EXPECT_TRUE(mistakesIn(*begun).empty()) << textOf(mistakesIn(*begun));
  const auto grown = edits::addTypedStep(*begun, "on", typedIn(*begun, "turn: neck 0 0 -8"));
  ASSERT_TRUE(grown.ok()) << textOf(grown.problems());
  ASSERT_EQ(grown->sequences[1].steps.size(), 1u);
  EXPECT_EQ(grown->sequences[1].steps[0].name, "turn");
  EXPECT_EQ(grown->modes[2].name, "dancer");
  EXPECT_EQ(grown->modes[2].values->at("neck"), DocumentValue(ThreeNumbers{0, 0, -8}));
  EXPECT_EQ(grown->modes[1], boat().modes[1]);
  EXPECT_TRUE(mistakesIn(*grown).empty()) << textOf(mistakesIn(*grown));
}

TEST(StepWords, IntoAStepThatIsThereTheModeGoesAlongToo) {
  expectBoat(edits::mergeTypedStep(boat(), {"rise", 1}, typedIn(boat(), "wrist 20")), R"([
    {"op": "replace", "path": "/sequences/0/steps/1/moves/wrist", "value": 20},
    {"op": "replace", "path": "/modes/1/values/wrist", "value": 20}])");
  expectRefused(
      edits::mergeTypedStep(boat(), {"rise", 2}, typedIn(boat(), "wrist 20")).problems(), "by hand");
}

}  // namespace
}  // namespace swingroom
