// Variants in the session. The hatch box (README of the sample): box and lid are 0.5 apart at the least, all other
// pairs farther; the required gap is 0.3.
#include <gtest/gtest.h>

#include <QSignalSpy>

#include "app/edits/variant_edits.h"
#include "app/session/document/outside_changes.h"
#include "app/session/session.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

class VariantsInSession : public ::testing::Test {
 protected:
  void SetUp() override {
    AssemblyDocument document = bench_.document();
    document.variants.push_back(
        {"wide gap", R"({"pairs":[{"parts":["lid","box"],"requiredGap":0.8}]})", {}});
    document.variants.push_back({"blue lid", R"({"parts":[{"name":"lid","colour":"#0000FF"}]})", {}});
    document.variants.push_back(
        {"no bolt", R"({"parts":[{"name":"bolt","stages":{"block":"gone.stl"}}]})", {}});
    bench_.write(document);
    ASSERT_EQ(session_.open(bench_.file()), Problems{});
    ASSERT_TRUE(waitUntilQuiet(session_));
  }

  Verdict verdict(const std::string& a, const std::string& b) {
    return resultOf(session_.board(), 0, a, b).verdict;
  }

  Bench bench_ = Bench::hatchBox();
  Session session_{testReader()};
};

TEST_F(VariantsInSession, ThePlainFileIsShownFirst) {
  EXPECT_EQ(session_.variant(), "");
  EXPECT_EQ(session_.board().report().variant, "");
  EXPECT_EQ(verdict("box", "lid"), Verdict::clear);
}

TEST_F(VariantsInSession, AShownVariantIsCheckedAnewOnlyWhereItDiffers) {
  const AssemblyDocument before = session_.document().document();
  std::size_t keptAtFirst = 0, inAll = 0;
  QObject::connect(&session_, &Session::sceneChanged, [&] {
    keptAtFirst = session_.board().pairsKnown();
    inAll = session_.board().pairsInAll();
    EXPECT_FALSE(session_.board().isKnown(0, pairOf(session_.board(), "box", "lid")));
  });
  session_.showVariant("wide gap");
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(keptAtFirst + session_.scene()->ways.size(), inAll);
  EXPECT_EQ(verdict("box", "lid"), Verdict::tight);
  EXPECT_EQ(session_.board().report().variant, "wide gap");
  EXPECT_EQ(session_.board().report().results, swept(*session_.scene()));
  EXPECT_EQ(session_.document().document(), before) << "showing is no edit";
  EXPECT_FALSE(session_.document().isModified());
  session_.showVariant("");
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(verdict("box", "lid"), Verdict::clear);
}

TEST_F(VariantsInSession, AnEditChangesThePlainFileAndIsSeenInTheVariant) {
  session_.showVariant("blue lid");
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.scene()->document.parts[1].colour, "#0000FF");
  AssemblyDocument changed = session_.document().document();
  changed.requiredGap = 0.55;
  changed.parts[1].colour = "#FF0000";
  session_.document().edit(QStringLiteral("edit"), changed);
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.variant(), "blue lid");
  EXPECT_EQ(verdict("box", "lid"), Verdict::tight);
  EXPECT_EQ(session_.scene()->document.parts[1].colour, "#0000FF") << "that is the variant's own";
  session_.document().undoStack().undo();
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.variant(), "blue lid");
  EXPECT_EQ(verdict("box", "lid"), Verdict::clear);
}

TEST_F(VariantsInSession, UndoingTheOneThatIsShownShowsThePlainFile) {
  const auto edited = edits::addVariant(session_.document().document(), "other lid",
                                        {"lid", "", "lid.stl"});
  ASSERT_TRUE(edited.ok());
  session_.document().edit(QStringLiteral("new"), *edited);
  session_.showVariant("other lid");
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.variant(), "other lid");
  QSignalSpy told(&session_, &Session::variantChanged);
  session_.document().undoStack().undo();
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.variant(), "");
  EXPECT_EQ(told.count(), 1);
  EXPECT_TRUE(session_.isProven());
}

TEST_F(VariantsInSession, WhatCannotBeReadIsSaidAtItsPlaceInTheFile) {
  session_.showVariant("no bolt");
  ASSERT_TRUE(waitUntilQuiet(session_));
  ASSERT_FALSE(session_.problems().empty());
  EXPECT_NE(session_.problems()[0].where.find("#/variants/2/replace/parts/0/stages"),
            std::string::npos)
      << session_.problems()[0].where;
  EXPECT_FALSE(session_.isProven());
  session_.showVariant("");
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_TRUE(session_.problems().empty());
  EXPECT_TRUE(session_.isProven());
}

TEST_F(VariantsInSession, ASavedMeshOfTheShownVariantIsCheckedAtOnce) {
  std::filesystem::copy_file(bench_.folder() / "bolt.stl", bench_.folder() / "other_bolt.stl");
  const auto edited = edits::addVariant(session_.document().document(), "other bolt",
                                        {"bolt", "", "other_bolt.stl"});
  ASSERT_TRUE(edited.ok());
  OutsideChanges outside(session_);
  session_.document().edit(QStringLiteral("new"), *edited);
  session_.showVariant("other bolt");
  ASSERT_TRUE(waitUntilQuiet(session_));
  const auto before = session_.scene();
  moveStl(bench_.folder() / "other_bolt.stl", {0, 0, -40});  // Through the box's bottom.
  EXPECT_TRUE(waitUntil([&] { return session_.scene() != before; }));
  EXPECT_TRUE(waitUntil([&] { return session_.isProven(); }));
  EXPECT_EQ(session_.variant(), "other bolt");
}

TEST_F(VariantsInSession, AllAreCheckedInOneRun) {
  VariantsCheck& check = session_.variantsCheck();
  check.start(session_.document().document(), session_.document().file());
  EXPECT_TRUE(check.isRunning());
  ASSERT_TRUE(waitUntil([&] { return !check.isRunning(); }));
  ASSERT_EQ(check.rows().size(), 4u);
  EXPECT_EQ(check.known(), 4u);
  EXPECT_TRUE(check.rows()[0].row->passes());
  const VariantRow& wide = *check.rows()[1].row;
  EXPECT_EQ(wide.name, "wide gap");
  EXPECT_EQ(wide.whole, Verdict::tight);
  EXPECT_EQ(wide.counts[1], 1u);
  ASSERT_TRUE(wide.worst);
  EXPECT_EQ(PartPair(wide.worst->a, wide.worst->b),
            PartPair(part(*session_.scene(), "box"), part(*session_.scene(), "lid")));
  EXPECT_NE(wide.place.find("0.50 mm"), std::string::npos) << wide.place;
  EXPECT_TRUE(check.rows()[2].row->passes());
  EXPECT_FALSE(check.rows()[3].row);
  EXPECT_FALSE(check.rows()[3].problems.empty());
}

TEST_F(VariantsInSession, AStoppedRunKeepsWhatItKnowsAndStartsAgain) {
  VariantsCheck& check = session_.variantsCheck();
  check.start(session_.document().document(), session_.document().file());
  check.cancel();
  EXPECT_FALSE(check.isRunning());
  letTimePass();
  EXPECT_EQ(check.known(), 0u) << "what was under way means nothing";
  check.start(session_.document().document(), session_.document().file());
  ASSERT_TRUE(waitUntil([&] { return !check.isRunning(); }));
  EXPECT_EQ(check.known(), 4u);
}

}  // namespace
}  // namespace swingroom
