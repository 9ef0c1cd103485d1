// The unit of part files and the size of all: by patches written by hand.
#include "app/edits/size_edits.h"

#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

const char* const kAllScales = R"([
  {"op": "add", "path": "/parts/0/scale", "value": 25.4}, {"op": "add", "path": "/parts/1/scale", "value": 25.4},
  {"op": "add", "path": "/parts/2/scale", "value": 25.4}, {"op": "add", "path": "/parts/3/scale", "value": 25.4},
  {"op": "add", "path": "/parts/4/scale", "value": 25.4}, {"op": "add", "path": "/parts/5/scale", "value": 25.4},
  {"op": "replace", "path": "/variants/0/replace/parts/0",
   "value": {"name": "head", "stages": {"block": "big.stl"}, "scale": 25.4}}])";

TEST(SizeEdits, InInchesOnlyTheScalesChange) {
  const auto changed = edits::inUnit(boat(), LengthUnit::inch, false);
  ASSERT_TRUE(changed);
  AssemblyDocument wanted = boatWith(kAllScales);
  wanted.variants = changed->variants;  // Its keys come in another order.
  EXPECT_EQ(writeDocument(*changed), writeDocument(wanted));
  EXPECT_TRUE(mistakesIn(*changed).empty());
}

TEST(SizeEdits, FromOneUnitToAnotherAndBackGivesTheSameBytes) {
  const auto inches = edits::inUnit(boat(), LengthUnit::inch, true);
  ASSERT_TRUE(inches);
  EXPECT_EQ(edits::meshUnit(*inches), LengthUnit::inch);
  EXPECT_EQ((*inches->joints[0].through)[2], 254) << "joints grow with the meshes";
  auto back = edits::inUnit(*inches, LengthUnit::mm, true);
  ASSERT_TRUE(back);
  back->variants = boat().variants;
  EXPECT_EQ(writeDocument(*back), writeDocument(boat()));
}

TEST(SizeEdits, TheUnitIsThatOfAllScales) {
  AssemblyDocument document = boat();
  EXPECT_EQ(edits::meshUnit(document), LengthUnit::mm);
  document.parts[2].scale = 10;
  EXPECT_FALSE(edits::meshUnit(document)) << "scales differ";
  for (DocumentPart& part : document.parts) part.scale = 1.5;
  EXPECT_FALSE(edits::meshUnit(document)) << "1.5 mm is no unit";
}

TEST(SizeEdits, FilesThatSayTheirUnitAreCountedApartAndKeepIt) {
  AssemblyDocument document = boat();
  document.parts[0].stages["block"] = "hull.3mf";
  document.parts[0].scale = 2;
  document.parts[5].stages.clear();
  const auto counts = edits::unitCounts(document);
  EXPECT_EQ(counts.said, 1);
  EXPECT_EQ(counts.unsaid, 4);
  EXPECT_EQ(edits::meshUnit(document), LengthUnit::mm);
  const auto changed = edits::inUnit(document, LengthUnit::cm, false);
  ASSERT_TRUE(changed);
  EXPECT_EQ(changed->parts[0].scale, 2);
  EXPECT_EQ(changed->parts[1].scale, 10);
  EXPECT_EQ(changed->parts[5].scale, 1) << "without a mesh there is nothing to scale";
}

}  // namespace
}  // namespace swingroom
