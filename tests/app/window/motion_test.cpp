// Modes and steps in the whole window, by real mouse and keys, on the hatch box: one way, "open
// up", of two steps, "bolt back" and "lid up".
#include <QLineEdit>

#include "app/panels/way/line_of_steps.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class MotionWindow : public OpenWindow {
 protected:
  QPointF nameAt(std::size_t step) {
    for (const auto& label : window_->ribbon().line().stepLabels()) {
      if (label.step == step) return label.rect.center();
    }
    return {};
  }
  std::vector<std::string> steps() {
    std::vector<std::string> names;
    for (const DocumentStep& step : session().document().document().sequences[0].steps) {
      names.push_back(step.name);
    }
    return names;
  }
  void doubleClick(const QWidget& widget, const QPointF& place) {
    hand_.click(widget, place);
    hand_.click(widget, place);
  }
  void settle() {
    ASSERT_TRUE(soon([&] { return !session().isLoading(); }));
  }
};

TEST_F(MotionWindow, StepsAreRenamedReorderedSplitJoinedAndAllOfItUndone) {
  open();
  const LineOfSteps& line = window_->ribbon().line();
  // Renamed on the line.
  doubleClick(line, nameAt(1));
  ASSERT_TRUE(soon([&] { return window_->lineHandles().nameEditor() != nullptr; }));
  hand_.type(QStringLiteral("lid over"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return steps() == std::vector<std::string>{"bolt back", "lid over"}; }));
  settle();
  EXPECT_TRUE(session().board().isComplete()) << "a name is nothing to check";
  // By the key, and let go again.
  hand_.key(QStringLiteral("F2"));
  ASSERT_TRUE(soon([&] { return window_->lineHandles().nameEditor() != nullptr; }));
  hand_.type(QStringLiteral("nothing"));
  hand_.key(QStringLiteral("Escape"));
  EXPECT_EQ(steps(), (std::vector<std::string>{"bolt back", "lid over"}));
  // Dragged by its name before the first.
  const QPointF from = nameAt(1);
  hand_.press(line, from);
  hand_.moveTo(line, from - QPointF(40, 0));
  hand_.moveTo(line, {window_->ribbon().axis().left + 10, from.y()});
  hand_.release();
  ASSERT_TRUE(soon([&] { return steps() == std::vector<std::string>{"lid over", "bolt back"}; }));
  settle();
  // Split half way through its turn, where both halves are joined again.
  hand_.click(line, {window_->ribbon().axis().xAt(0.25), line.lineY()});
  hand_.key(QStringLiteral("ctrl+shift+k"));
  ASSERT_TRUE(soon([&] { return steps().size() == 3; }));
  EXPECT_EQ(steps()[1], "lid over 2");
  settle();
  EXPECT_NEAR(instant(), 1.0 / 3, 2e-3) << "on the bead between them";
  session().stand().moveTo(0.1);
  hand_.key(QStringLiteral("ctrl+shift+j"));
  ASSERT_TRUE(soon([&] { return steps() == std::vector<std::string>{"lid over", "bolt back"}; }));
  waitForCheck();

  while (session().document().undoStack().canUndo()) hand_.key(QStringLiteral("ctrl+z"));
  EXPECT_FALSE(window_->isWindowModified());
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), original_);
  waitForCheck();
  EXPECT_EQ(session().board().counts()[static_cast<std::size_t>(Verdict::clear)], 3u);
}

TEST_F(MotionWindow, ANewModeFromTheHandsPoseHasItsNameInPlaceToBeEdited) {
  open();
  session().choice().choosePart(part("lid"));
  const JointId hinge = *session().scene()->assembly().findJoint("lid hinge");
  session().stand().moveJoint(hinge, {radFromDeg(40), 0, 0});
  hand_.key(QStringLiteral("ctrl+shift+m"));
  ASSERT_TRUE(soon([&] { return window_->leftColumn().page() == LeftColumn::motion; }));
  RowsView& modes = window_->motionPanel().modes();
  ASSERT_TRUE(soon([&] { return modes.findChild<QLineEdit*>() != nullptr; }));
  waitForCheck();  // What is being typed stays while results come.
  hand_.type(QStringLiteral("ajar"));
  hand_.key(QStringLiteral("Return"));
  const auto& written = session().document().document().modes;
  ASSERT_TRUE(soon([&] { return written.size() == 3 && written[2].name == "ajar"; }));
  EXPECT_EQ(written[2].values->at("lid hinge"), DocumentValue(40.0));
  EXPECT_TRUE(session().stand().isByHand()) << "and it goes on standing so";
  waitForCheck();
  // A click on another mode stands there.
  hand_.click(*modes.viewport(), modes.visualRect(modes.model()->index(1, 0)).center());
  EXPECT_EQ(instant(), 1);
  hand_.key(QStringLiteral("ctrl+z"));
  hand_.key(QStringLiteral("ctrl+z"));
  EXPECT_EQ(written.size(), 2u);
}

TEST_F(MotionWindow, AnEndIsTypedInTheTableAndTheWayIsFinishedAgain) {
  open();
  window_->leftColumn().showPage(LeftColumn::motion);
  session().stand().moveTo(0.75);
  QTableView& table = window_->motionPanel().table();
  const QModelIndex end = table.model()->index(0, StepTable::EndColumn);
  ASSERT_EQ(end.data().toString(), QStringLiteral("110°"));
  QTest::qWait(100);  // Until the page is laid out.
  doubleClick(*table.viewport(), table.visualRect(end).center());
  ASSERT_TRUE(soon([&] { return table.findChild<QLineEdit*>() != nullptr; }));
  hand_.type(QStringLiteral("80"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return !session().problems().empty(); }));
  EXPECT_TRUE(window_->problems().text().contains(QStringLiteral("30° short")));
  EXPECT_TRUE(session().scene()) << "the last scene stays";
  QPushButton& finish = window_->problems().offerButton();
  ASSERT_TRUE(finish.isVisible());
  hand_.click(finish, QRectF(finish.rect()).center());
  ASSERT_TRUE(soon([&] { return session().problems().empty(); }));
  EXPECT_FALSE(window_->problems().isVisible());
  EXPECT_EQ(steps(), (std::vector<std::string>{"bolt back", "lid up", "finish"}));
  waitForCheck();
}

TEST_F(MotionWindow, WhatCannotBeIsRefusedInWords) {
  open();
  session().stand().moveTo(0.25);  // The bolt clicks at 0 and 8 only.
  hand_.key(QStringLiteral("ctrl+shift+k"));
  ASSERT_TRUE(soon([&] { return window_->problems().isVisible(); }));
  EXPECT_TRUE(window_->problems().text().contains(QStringLiteral("nearest click")));
  EXPECT_FALSE(window_->isWindowModified());
}

}  // namespace
}  // namespace swingroom
