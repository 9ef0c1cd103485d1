#include "app/edits/pair_edits.h"

#include <gtest/gtest.h>

#include "app/session/document/open_document.h"
#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

class EditsTest : public ::testing::Test {
 protected:
  const AssemblyDocument plain_ = documentOf(sampleFile("hatch_box/hatch_box.swing.json"));
};

TEST_F(EditsTest, ARequiredGapIsMadeChangedAndRemoved) {
  AssemblyDocument document = edits::requiredGap(plain_, "box", "lid", 0.4);
  ASSERT_EQ(document.pairs.size(), 1u);
  EXPECT_EQ(document.pairs[0].requiredGap, 0.4);
  document = edits::requiredGap(document, "box", "lid", 0.55);
  ASSERT_EQ(document.pairs.size(), 1u);
  EXPECT_EQ(document.pairs[0].requiredGap, 0.55);
  EXPECT_EQ(edits::requiredGap(document, "box", "lid", std::nullopt), plain_);
}

TEST_F(EditsTest, AnAllowanceIsMadeChangedAndRemoved) {
  AssemblyDocument document = edits::allowance(plain_, "box", "lid", "a latch");
  ASSERT_EQ(document.pairs.size(), 1u);
  EXPECT_EQ(document.pairs[0].allow, "a latch");
  document = edits::allowance(document, "box", "lid", "a stop");
  EXPECT_EQ(document.pairs[0].allow, "a stop");
  EXPECT_EQ(edits::allowance(document, "box", "lid", std::nullopt), plain_);
}

TEST_F(EditsTest, ThePairIsFoundByEitherOrderOfItsNames) {
  const AssemblyDocument document = edits::requiredGap(plain_, "box", "lid", 0.4);
  EXPECT_EQ(edits::requiredGap(document, "lid", "box", std::nullopt), plain_);
  const AssemblyDocument both = edits::allowance(document, "lid", "box", "a latch");
  ASSERT_EQ(both.pairs.size(), 1u);
  EXPECT_EQ(edits::ruleFor(both, "box", "lid"), edits::ruleFor(both, "lid", "box"));
  EXPECT_EQ(edits::ruleFor(both, "lid", "box"), &both.pairs[0]);
  EXPECT_EQ(edits::ruleFor(both, "lid", "bolt"), nullptr);
}

TEST_F(EditsTest, ARuleGoesOnlyWhenItSaysNothingMore) {
  AssemblyDocument document = edits::requiredGap(plain_, "box", "lid", 0.4);
  document = edits::allowance(document, "box", "lid", "a latch");
  document = edits::requiredGap(document, "box", "lid", std::nullopt);
  ASSERT_EQ(document.pairs.size(), 1u) << "the allowance stays";
  document.pairs[0].extra["note"] = "\"mine\"";
  document = edits::allowance(document, "box", "lid", std::nullopt);
  ASSERT_EQ(document.pairs.size(), 1u) << "a key that is not ours stays";
  document.pairs[0].extra.clear();
  document.pairs[0].contacts.push_back({});
  document = edits::allowance(document, "box", "lid", std::nullopt);
  EXPECT_EQ(document.pairs.size(), 1u) << "a contact stays";
}

TEST_F(EditsTest, OtherPairsKeepTheirRules) {
  AssemblyDocument document = edits::requiredGap(plain_, "box", "bolt", 0.5);
  const DocumentPair other = document.pairs[0];
  document = edits::requiredGap(document, "box", "lid", 0.4);
  document = edits::requiredGap(document, "box", "lid", std::nullopt);
  EXPECT_EQ(document.pairs, std::vector{other});
}

TEST_F(EditsTest, UnknownNamesAndAPartWithItselfChangeNothing) {
  EXPECT_EQ(edits::requiredGap(plain_, "box", "hatch", 0.4), plain_);
  EXPECT_EQ(edits::requiredGap(plain_, "", "lid", 0.4), plain_);
  EXPECT_EQ(edits::allowance(plain_, "box", "box", "itself"), plain_);
  EXPECT_EQ(edits::colour(plain_, "hatch", "#000000"), plain_);
}

TEST_F(EditsTest, AColourChangesOnePartOnly) {
  AssemblyDocument expected = plain_;
  expected.parts[1].colour = "#102030";
  EXPECT_EQ(edits::colour(plain_, "lid", "#102030"), expected);
}

TEST_F(EditsTest, ContactsAreAddedAtTheEndAndTakenBackOneByOne) {
  DocumentContact rest, snap;
  rest.modes = {"open"};
  rest.reason = "a stop";
  snap.kind = ContactKind::snap;
  snap.steps = {"lid up"};
  AssemblyDocument document = edits::contact(plain_, "lid", "box", rest);
  document = edits::contact(document, "box", "lid", snap);
  ASSERT_EQ(document.pairs.size(), 1u);
  EXPECT_EQ(document.pairs[0].contacts, (std::vector{rest, snap}));
  EXPECT_EQ(edits::withoutContact(document, "lid", "box", 2), document) << "there is none";
  document = edits::withoutContact(document, "lid", "box", 0);
  EXPECT_EQ(document.pairs[0].contacts, std::vector{snap});
  EXPECT_EQ(edits::withoutContact(document, "lid", "box", 0), plain_) << "the rule goes with it";
}

TEST_F(EditsTest, UndoBringsBackAnEqualDocument) {
  OpenDocument open;
  open.show(plain_, "hatch_box.swing.json", true);
  open.edit(QStringLiteral("a"), edits::requiredGap(open.document(), "lid", "box", 0.4));
  open.edit(QStringLiteral("b"), edits::allowance(open.document(), "box", "lid", "a latch"));
  open.edit(QStringLiteral("c"), edits::colour(open.document(), "bolt", "#102030"));
  open.edit(QStringLiteral("d"), edits::requiredGap(open.document(), "lid", "box", std::nullopt));
  while (open.undoStack().canUndo()) open.undoStack().undo();
  EXPECT_EQ(open.document(), plain_);
}

}  // namespace
}  // namespace swingroom
