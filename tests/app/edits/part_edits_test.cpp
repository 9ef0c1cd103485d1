// Expected documents are the boat of load_fixture.h with patches written by hand.
#include "app/edits/part_edits.h"

#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

TEST(PartEdits, RenamingReachesJointsModesStepsAndPairs) {
  expectBoat(edits::renamePart(boat(), "axe", "boathook"), R"([
    {"op": "replace", "path": "/parts/3/name", "value": "boathook"},
    {"op": "replace", "path": "/joints/2/child", "value": "boathook"},
    {"op": "replace", "path": "/joints/3/child", "value": "boathook"},
    {"op": "replace", "path": "/modes/0/mounts", "value": {"boathook": "deck clip"}},
    {"op": "replace", "path": "/modes/1/mounts", "value": {"boathook": "hand clip"}},
    {"op": "replace", "path": "/sequences/0/steps/2/replug/part", "value": "boathook"}])");
  expectBoat(edits::renamePart(boat(), "hull", "body"), R"([
    {"op": "replace", "path": "/parts/0/name", "value": "body"},
    {"op": "replace", "path": "/joints/0/parent", "value": "body"},
    {"op": "replace", "path": "/joints/2/parent", "value": "body"},
    {"op": "replace", "path": "/joints/4/parent", "value": "body"},
    {"op": "replace", "path": "/joints/5/parent", "value": "body"},
    {"op": "replace", "path": "/pairs/0/parts/0", "value": "body"},
    {"op": "replace", "path": "/pairs/1/parts/0", "value": "body"}])");
}

TEST(PartEdits, RenamingReachesWhatVariantsReplace) {
  const auto edited = edits::renamePart(boat(), "head", "skull");
  ASSERT_TRUE(edited.ok());
  EXPECT_EQ(edited->variants[0].replace,
            R"({"parts":[{"name":"skull","stages":{"block":"big.stl"}}]})");
  EXPECT_TRUE(mistakesIn(*edited).empty()) << textOf(mistakesIn(*edited));
  const auto back = edits::renamePart(*edited, "skull", "head");
  EXPECT_EQ(writeDocument(*back), writeDocument(boat()));
}

TEST(PartEdits, RenamingReachesPlacementsAndJointsNamedAfterThem) {
  const char* const placed = R"([
    {"op": "remove", "path": "/joints/1"}, {"op": "remove", "path": "/joints/1"}, {"op": "remove", "path": "/joints/1"},
    {"op": "remove", "path": "/sequences"}, {"op": "remove", "path": "/pairs"},
    {"op": "replace", "path": "/modes", "value": [{"name": "near", "values": {"shoulder": 0, "neck": [0, 0, 0]}},
      {"name": "far", "placements": {"axe": {"at": [7, 0, 0]}}}]}])";
  AssemblyDocument document = boatWith(placed);
  const std::string implied = WrittenMotion::of(document)->impliedJoints().at(0).name;
  (*document.modes[0].values)[implied] = 3.0;
  ASSERT_TRUE(mistakesIn(document).empty()) << textOf(mistakesIn(document));
  const auto edited = edits::renamePart(document, "axe", "boathook");
  ASSERT_TRUE(edited.ok());
  EXPECT_TRUE(edited->modes[1].placements->contains("boathook"));
  EXPECT_TRUE(mistakesIn(*edited).empty()) << textOf(mistakesIn(*edited));
}

TEST(PartEdits, ATakenOrEmptyNameIsRefused) {
  expectRefused(edits::renamePart(boat(), "axe", "hull").problems(), "taken");
  expectRefused(edits::renamePart(boat(), "axe", " ").problems(), "needs a name");
  expectRefused(edits::renamePart(boat(), "oar", "x").problems(), "not there");
  expectBoat(edits::renamePart(boat(), "axe", " axe "), "[]");
}

TEST(PartEdits, PropertiesAreSetAndLeftAloneOneByOne) {
  expectBoat(edits::setProperties(boat(), "hull", edits::propertiesOf(boat().parts[0])), "[]");
  edits::PartProperties wanted = edits::propertiesOf(boat().parts[0]);
  wanted.kind = PartKind::soft;
  wanted.material = "TPU";
  wanted.count = 2;
  wanted.clear = true;
  expectBoat(edits::setProperties(boat(), "hull", wanted), R"([
    {"op": "add", "path": "/parts/0/kind", "value": "soft"},
    {"op": "add", "path": "/parts/0/material", "value": "TPU"},
    {"op": "add", "path": "/parts/0/count", "value": 2},
    {"op": "add", "path": "/parts/0/clear", "value": true}])");
}

TEST(PartEdits, TheStageInUseIsOneThatThePartHas) {
  const char* const both =
      R"([{"op": "add", "path": "/parts/0/stages/detail", "value": "fine.stl"}])";
  edits::PartProperties wanted = edits::propertiesOf(boat().parts[0]);
  wanted.stage = "detail";
  const auto edited = edits::setProperties(boatWith(both), "hull", wanted);
  ASSERT_TRUE(edited.ok());
  EXPECT_EQ(edited->parts[0].use, "detail");
  expectRefused(edits::setProperties(boat(), "hull", wanted).problems(), "no stage");
  wanted.stage = "block";
  wanted.count = 0;
  expectRefused(edits::setProperties(boat(), "hull", wanted).problems(), "count");
}

}  // namespace
}  // namespace swingroom
