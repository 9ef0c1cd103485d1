// Expected documents are the boat of load_fixture.h with patches written by hand.
#include "app/edits/print_edits.h"

#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

TEST(PrintEdits, TheProcessIsSetAndTakenAwayAndNothingElseChanges) {
  const AssemblyDocument powder = edits::setProcess(boat(), " powder, sintered ");
  expectBoat(edits::Edited(powder),
             R"([{"op": "add", "path": "/process", "value": "powder, sintered"}])");
  EXPECT_TRUE(mistakesIn(powder).empty()) << textOf(mistakesIn(powder));
  const AssemblyDocument none = edits::setProcess(powder, "");
  EXPECT_EQ(none, edits::setProcess(boat(), ""));
}

TEST(PrintEdits, ARenamedProcessIsFollowedInTheDocumentItsPartsAndItsVariants) {
  AssemblyDocument before = edits::setProcess(boat(), "old printer");
  before.parts[0].process = "old printer";
  before.parts[1].process = "another";
  const std::string part = before.parts[0].name;
  const auto variant = [&](const std::string& process) {
    return R"({"parts":[{"name":")" + part + R"(","process":")" + process + R"("}]})";
  };
  before.variants.push_back({"big", variant("old printer"), {}});
  const AssemblyDocument after = edits::renameProcesses(before, [](const std::string& name) {
    return name == "old printer" ? std::string("new printer") : name;
  });
  AssemblyDocument expected = before;
  expected.process = "new printer";
  expected.parts[0].process = "new printer";
  expected.variants.back().replace = variant("new printer");
  EXPECT_EQ(after, expected);
}

}  // namespace
}  // namespace swingroom
