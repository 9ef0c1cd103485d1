// Findings, the pair's card and the ribbon by real mouse and keys. The hatch box (README of the
// sample): box and bolt are 0.6 apart at the least, box and lid 0.5.
#include <QClipboard>
#include <QGuiApplication>
#include <QTest>

#include "app/edits/pair_edits.h"
#include "app/panels/findings/findings_tools.h"
#include "app/panels/way/ribbon_head.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class FindingsWindow : public OpenWindow {
 protected:
  /// Two findings: box and bolt 0.1 short of what is required, box and lid 0.3.
  void openWithTwo() {
    open();
    AssemblyDocument changed = session().document().document();
    changed = edits::requiredGap(changed, "box", "bolt", 0.7);
    changed = edits::requiredGap(changed, "box", "lid", 0.8);
    session().document().edit(QStringLiteral("required gaps"), changed);
    ASSERT_TRUE(soon([&] { return panel().model().rowCount() == 2; }));
    waitForCheck();
  }

  FindingsPanel& panel() { return window_->findings(); }
  PairRuleForm& rules() { return panel().card().rules(); }
  PartPair pairOf(const char* a, const char* b) {
    return {std::min(part(a), part(b)), std::max(part(a), part(b))};
  }
  void clickOn(QWidget& widget) { hand_.click(widget, QRectF(widget.rect()).center()); }
  const DocumentPair* rule(const char* a, const char* b) {
    return edits::ruleFor(session().document().document(), a, b);
  }
};

TEST_F(FindingsWindow, TheSearchNarrowsTheListAndReturnStandsAtTheWorst) {
  openWithTwo();
  hand_.key(QStringLiteral("ctrl+f"));
  ASSERT_TRUE(soon([&] { return panel().tools().search().hasFocus(); }));
  hand_.type(QStringLiteral("bolt"));
  ASSERT_TRUE(soon([&] { return panel().model().rowCount() == 1; }));
  EXPECT_FALSE(session().choice().pair().has_value()) << "searching chooses nothing";
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return session().choice().pair() == pairOf("box", "bolt"); }));
  const auto index = session().board().pairIndex(part("box"), part("bolt"));
  EXPECT_EQ(instant(), *session().board().report().results[0].pairs[*index].gap.instant);
  hand_.key(QStringLiteral("ctrl+f"));
  hand_.key(QStringLiteral("Escape"));
  EXPECT_TRUE(soon([&] { return panel().model().rowCount() == 2; }));
}

TEST_F(FindingsWindow, F4GoesFromFindingToFindingFromAnywhere) {
  openWithTwo();
  const auto chosenIs = [&](const char* a, const char* b) {
    return soon([&] { return session().choice().pair() == pairOf(a, b); });
  };
  hand_.key(QStringLiteral("F4"));
  EXPECT_TRUE(chosenIs("box", "lid")) << "0.3 short: the worst";
  hand_.key(QStringLiteral("F4"));
  EXPECT_TRUE(chosenIs("box", "bolt"));
  hand_.key(QStringLiteral("F4"));
  EXPECT_TRUE(chosenIs("box", "lid")) << "round the end";
  hand_.key(QStringLiteral("shift+F4"));
  EXPECT_TRUE(chosenIs("box", "bolt"));
}

TEST_F(FindingsWindow, APairIsAllowedWithAReasonOnTheCardAndTakenBack) {
  openWithTwo();
  hand_.key(QStringLiteral("F4"));
  ASSERT_TRUE(soon([&] { return panel().card().isVisible(); }));
  QTest::qWait(300);
  clickOn(rules().allowButton());
  ASSERT_TRUE(soon([&] { return rules().reasonForm().reason().hasFocus(); }));
  hand_.key(QStringLiteral("Return"));
  hand_.type(QStringLiteral("  "));
  hand_.key(QStringLiteral("Return"));
  QTest::qWait(200);
  EXPECT_TRUE(rules().isAsking()) << "without a reason nothing is taken";
  EXPECT_FALSE(rule("box", "lid")->allow.has_value());
  hand_.type(QStringLiteral("felt between"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return rule("box", "lid")->allow == "felt between"; }));
  EXPECT_FALSE(rules().isAsking());
  EXPECT_TRUE(soon([&] { return panel().model().rowCount() == 1; }));
  EXPECT_TRUE(soon(
      [&] { return panel().card().story().allowedBecause == QStringLiteral("felt between"); }));
  QTest::qWait(300);
  clickOn(rules().allowButton());
  EXPECT_TRUE(soon([&] { return !rule("box", "lid")->allow.has_value(); }));
}

TEST_F(FindingsWindow, EscapeLeavesTheReasonAndTheKeysGoOn) {
  openWithTwo();
  hand_.key(QStringLiteral("F4"));
  QTest::qWait(300);
  clickOn(rules().allowButton());
  ASSERT_TRUE(soon([&] { return rules().isAsking(); }));
  hand_.type(QStringLiteral("no"));
  hand_.key(QStringLiteral("Escape"));
  EXPECT_TRUE(soon([&] { return !rules().isAsking(); }));
  EXPECT_FALSE(rule("box", "lid")->allow.has_value());
}

TEST_F(FindingsWindow, PartsMayTouchInAStepWithAReasonAndItIsUndone) {
  openWithTwo();
  hand_.key(QStringLiteral("F4"));
  QTest::qWait(300);
  const AssemblyDocument before = session().document().document();
  clickOn(rules().touchButton());
  ASSERT_TRUE(soon([&] { return rules().reasonForm().reason().hasFocus(); }));
  hand_.type(QStringLiteral("lies on the rim"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return rule("box", "lid")->contacts.size() == 1; }));
  const DocumentContact& contact = rule("box", "lid")->contacts[0];
  EXPECT_EQ(contact.kind, ContactKind::rest);
  EXPECT_EQ(contact.reason, "lies on the rim");
  // Its worst place lies in the middle of the second step (README: instant 0.574 of two steps).
  EXPECT_EQ(contact.steps, std::vector<std::string>{"lid up"});
  waitForCheck();
  EXPECT_TRUE(session().problems().empty());
  EXPECT_TRUE(soon([&] { return panel().card().story().contacts.size() == 1; }));
  session().document().undoStack().undo();
  EXPECT_EQ(session().document().document(), before);
}

TEST_F(FindingsWindow, TheCardIsCopiedAsText) {
  openWithTwo();
  hand_.key(QStringLiteral("ctrl+f"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return panel().list().hasFocus(); }));
  hand_.key(QStringLiteral("ctrl+c"));
  const auto copied = [] { return QGuiApplication::clipboard()->text(); };
  ASSERT_TRUE(soon([&] { return copied().startsWith(QStringLiteral("tight: box and lid")); }));
  for (const char* words : {"0.50 mm apart", "step 2 lid up", "Required gap: 0.80 mm", "Least gap",
                            "lid hinge", "as printed: not checked"}) {
    EXPECT_TRUE(copied().contains(QLatin1String(words))) << words << " in\n"
                                                         << copied().toStdString();
  }
}

TEST_F(FindingsWindow, TheWayIsSeenCloseUpByKeysAndRowsAreKeptToTheChosenPart) {
  open();
  hand_.key(QStringLiteral("ctrl+plus"));
  ASSERT_TRUE(soon([&] { return window_->ribbon().axis().span() < 0.7; }));
  hand_.key(QStringLiteral("ctrl+0"));
  ASSERT_TRUE(soon([&] { return window_->ribbon().axis().isWhole(); }));
  session().choice().choosePart(part("bolt"));
  const std::size_t all = window_->ribbon().rows().ribbon().rows.size();
  clickOn(window_->ribbon().head().onlyBox());
  ASSERT_TRUE(soon([&] { return window_->ribbon().rows().ribbon().rows.size() < all; }));
  for (const RibbonRow& row : window_->ribbon().rows().ribbon().rows) {
    EXPECT_TRUE(row.a == part("bolt") || row.b == part("bolt"));
  }
  clickOn(window_->ribbon().head().byPartButton());
  EXPECT_TRUE(soon([&] { return window_->ribbon().rows().lines().isByPart(); }));
}

}  // namespace
}  // namespace swingroom
