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

}  // namespace
}  // namespace swingroom
