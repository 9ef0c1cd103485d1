#include "app/edits/stage_edits.h"

#include <gtest/gtest.h>

#include "app/models/stages/stage_story.h"

namespace swingroom {
namespace {

DocumentPart partWith(const std::string& name, const std::map<std::string, std::string>& stages) {
  DocumentPart part;
  part.name = name;
  part.stages = stages;
  return part;
}

AssemblyDocument twoOfThreeHaveBoth() {
  AssemblyDocument document;
  document.parts = {partWith("head", {{"block", "h.stl"}, {"detail", "hd.stl"}}),
                    partWith("torso", {{"block", "t.stl"}, {"detail", "td.stl"}}),
                    partWith("pin", {{"block", "p.stl"}})};
  return document;
}

TEST(StageEdits, AllAsDetailWhereThereIsOneAndBackIsTheSameDocument) {
  const AssemblyDocument document = twoOfThreeHaveBoth();
  const auto detail = edits::useStage(document, {}, "detail");
  ASSERT_TRUE(detail);
  EXPECT_EQ(detail->parts[0].use, "detail");
  EXPECT_EQ(detail->parts[1].use, "detail");
  EXPECT_EQ(detail->parts[2].use, "block");
  const auto block = edits::useStage(*detail, {}, "block");
  ASSERT_TRUE(block);
  EXPECT_EQ(*block, document);
}

TEST(StageEdits, SomePartsAndWhatIsSaidOfTheMix) {
  AssemblyDocument document = twoOfThreeHaveBoth();
  EXPECT_EQ(stageMixText(document), QStringLiteral("all as block"));
  const auto some = edits::useStage(document, {"torso"}, "detail");
  ASSERT_TRUE(some);
  EXPECT_EQ(some->parts[0].use, "block");
  EXPECT_EQ(edits::stageMixOf(*some).inDetail, 1u);
  EXPECT_TRUE(edits::stageMixOf(*some).isMixed());
  EXPECT_EQ(stageMixText(*some), QStringLiteral("detail in 1 of 2 parts that have one"));
  EXPECT_EQ(stageMixText(*edits::useStage(document, {}, "detail")), QStringLiteral("detail where there is one"));
  document.parts = {partWith("pin", {{"block", "p.stl"}})};
  EXPECT_EQ(stageMixText(document), QString());
}

TEST(StageEdits, AStageThatIsNotThereIsRefused) {
  const AssemblyDocument document = twoOfThreeHaveBoth();
  EXPECT_FALSE(edits::useStage(document, {"pin"}, "detail"));
  EXPECT_FALSE(edits::useStage(document, {"nobody"}, "block"));
  EXPECT_FALSE(edits::useStage(document, {}, "sketch"));
}

TEST(StageEdits, ADetailFileIsGivenAndInUse) {
  const auto given = edits::giveStage(twoOfThreeHaveBoth(), "pin", "detail", "sculpts/pin.stl");
  ASSERT_TRUE(given);
  EXPECT_EQ(given->parts[2].stages.at("detail"), "sculpts/pin.stl");
  EXPECT_EQ(given->parts[2].use, "detail");
  EXPECT_FALSE(edits::giveStage(twoOfThreeHaveBoth(), "nobody", "detail", "x.stl"));
  EXPECT_FALSE(edits::giveStage(twoOfThreeHaveBoth(), "pin", "detail", ""));
}

}  // namespace
}  // namespace swingroom
