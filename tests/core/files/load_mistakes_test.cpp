#include "tests/core/files/load_fixture.h"

namespace swingroom {
namespace {

class ManyMistakes : public LoadFixture {};

TEST_F(ManyMistakes, OfAllKindsComeInOneGo) {
  const Outcome<LoadedAssembly> loaded = load(patchedBoat(R"([
    {"op": "replace", "path": "/parts/1/stages/block", "value": "gone.stl"},
    {"op": "add", "path": "/parts/2/scale", "value": "big"},
    {"op": "replace", "path": "/joints/0/along", "value": [0, 0, 0]},
    {"op": "remove", "path": "/joints/1/type"},
    {"op": "replace", "path": "/joints/2/child", "value": "sword"},
    {"op": "replace", "path": "/modes/0/values/neck", "value": [0, 0, 90]},
    {"op": "replace", "path": "/sequences/0/to", "value": "ship"},
    {"op": "replace", "path": "/pairs/0/requiredGap", "value": -1}])"));
  ASSERT_FALSE(loaded.ok());
  std::vector<std::string> places;
  for (const Problem& problem : loaded.problems())
    places.push_back(problem.where.substr(file().string().size()));
  std::sort(places.begin(), places.end());
  EXPECT_EQ(places, (std::vector<std::string>{"#/joints/0/along", "#/joints/1", "#/joints/2/child",
                                              "#/modes/0/values/neck", "#/pairs/0/requiredGap",
                                              "#/parts/1/stages/block", "#/parts/2/scale",
                                              "#/sequences/0/to"}))
      << textOf(loaded.problems());
}

TEST_F(ManyMistakes, EveryJointThatFallsShortIsNamed) {
  const Outcome<LoadedAssembly> loaded = load(patchedBoat(
      R"([{"op": "replace", "path": "/sequences/0/steps", "value": [{"name": "lift", "moves": {"shoulder": 30}}]}])"));
  const std::string told = textOf(loaded.problems());
  for (const char* words :
       {"\"shoulder\" at 30°, 60° short", "\"wrist\" at 0 mm, 10 mm short", "\"axe\" on"}) {
    EXPECT_NE(told.find(words), std::string::npos) << words << " in:\n" << told;
  }
}

TEST_F(ManyMistakes, AFileThatIsNotThereIsTold) {
  const auto loaded = loadAssembly(folder_ / "none.swing.json", MeshReader::besideThisProgram(), 1);
  ASSERT_FALSE(loaded.ok());
  EXPECT_NE(loaded.problems()[0].what.find("no such file"), std::string::npos);
}

}  // namespace
}  // namespace swingroom
