// Variants by real mouse and keys. The hatch box (README of the sample): box and lid are 0.5 apart at the least.
#include <QAction>

#include "app/window/variants/variant_actions.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class VariantsWindow : public OpenWindow {
 protected:
  void openWithVariants() {
    open();
    AssemblyDocument changed = session().document().document();
    changed.variants.push_back(
        {"wide gap", R"({"pairs":[{"parts":["lid","box"],"requiredGap":0.8}]})", {}});
    changed.variants.push_back({"blue lid", R"({"parts":[{"name":"lid","colour":"#0000FF"}]})", {}});
    session().document().edit(QStringLiteral("variants"), changed);
    waitForCheck();
  }
  VariantChooser& chooser() { return window_->header().variants(); }
  VariantsForm& table() { return window_->variants().table(); }
  VariantForm& form() { return window_->variants().form(); }
  void clickOn(QWidget& widget) { hand_.click(widget, QRectF(widget.rect()).center()); }
  void clickOnRow(int row) {
    QWidget& rows = *table().table().viewport();
    hand_.click(rows, table().table().visualRect(table().table().model()->index(row, 0)).center());
  }
};

TEST_F(VariantsWindow, TheChooserIsThereOnlyWithVariants) {
  open();
  EXPECT_FALSE(chooser().isVisible());
  openWithVariants();
  EXPECT_TRUE(chooser().isVisible());
  session().document().undoStack().undo();
  EXPECT_FALSE(chooser().isVisible());
}

TEST_F(VariantsWindow, ChosenByKeysItIsShownAndChecked) {
  openWithVariants();
  clickOn(chooser());
  QTest::qWait(300);
  hand_.key(QStringLiteral("Down"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return session().variant() == "wide gap"; }));
  waitForCheck();
  EXPECT_EQ(verdictOf("box", "lid"), Verdict::tight);
  EXPECT_TRUE(chooser().currentText().contains(QStringLiteral("wide gap")));
}

TEST_F(VariantsWindow, ARowOfTheTableLeadsToTheVariantsWorstPlace) {
  openWithVariants();
  clickOn(chooser());
  QTest::qWait(300);
  hand_.key(QStringLiteral("End"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return table().isActiveWindow(); }));
  ASSERT_TRUE(soon([&] { return !session().variantsCheck().isRunning(); }));
  ASSERT_EQ(table().table().model()->rowCount(), 3);
  EXPECT_EQ(session().variant(), "") << "the table's entry is no variant";
  clickOnRow(1);
  ASSERT_TRUE(soon([&] { return session().variant() == "wide gap"; }));
  ASSERT_TRUE(soon([&] { return session().choice().pair().has_value(); }));
  const PartPair pair(part("box"), part("lid"));
  EXPECT_EQ(session().choice().pair(), pair);
  const auto index = session().board().pairIndex(part("box"), part("lid"));
  EXPECT_EQ(instant(), *session().board().report().results[0].pairs[*index].gap.instant);
  // By keys: up to the plain file.
  table().table().setFocus();
  hand_.key(QStringLiteral("Home"));
  hand_.key(QStringLiteral("Return"));
  EXPECT_TRUE(soon([&] { return session().variant().empty(); }));
}

TEST_F(VariantsWindow, AnotherMeshOfTheChosenPartIsKeptRenamedRemovedAndUndone) {
  open();
  const AssemblyDocument before = session().document().document();
  std::filesystem::copy_file(folder_.path() / "bolt.stl", folder_.path() / "round bolt.stl");
  session().choice().choosePart(part("bolt"));
  window_->variants().keepPart().trigger();
  ASSERT_TRUE(soon([&] { return form().isActiveWindow(); }));
  EXPECT_FALSE(form().keep().isEnabled());
  hand_.type(QStringLiteral("round"));
  hand_.key(QStringLiteral("Tab"));
  hand_.type(QStringLiteral("no.stl"));
  ASSERT_TRUE(soon([&] { return !form().says().isEmpty(); }));
  EXPECT_FALSE(form().keep().isEnabled()) << "there is no such file";
  hand_.key(QStringLiteral("ctrl+a"));
  hand_.type(QStringLiteral("round bolt.stl"));
  ASSERT_TRUE(soon([&] { return form().keep().isEnabled(); }));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return session().variant() == "round"; }));
  waitForCheck();
  ASSERT_EQ(session().document().document().variants.size(), 1u);
  EXPECT_EQ(session().document().document().variants[0].replace,
            R"({"parts":[{"name":"bolt","stages":{"block":"round bolt.stl"}}]})");
  EXPECT_TRUE(session().isProven());

  window_->variants().openTable();
  ASSERT_TRUE(soon([&] { return table().isActiveWindow(); }));
  ASSERT_TRUE(soon([&] { return !session().variantsCheck().isRunning(); }));
  hand_.key(QStringLiteral("End"));
  ASSERT_TRUE(soon([&] { return table().renameButton().isEnabled(); }));
  clickOn(table().renameButton());
  ASSERT_TRUE(soon([&] { return form().isActiveWindow(); }));
  hand_.type(QStringLiteral("rounder"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return session().document().document().variants[0].name == "rounder"; }));
  EXPECT_EQ(session().variant(), "rounder") << "it stays the one that is shown";
  session().document().undoStack().undo();
  session().document().undoStack().undo();
  EXPECT_EQ(session().document().document(), before);
  EXPECT_EQ(session().variant(), "");
}

}  // namespace
}  // namespace swingroom
