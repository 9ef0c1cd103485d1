#include "app/models/step_table.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QSignalSpy>

#include "app/models/motion_rows.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

/// The boat of tests/core/files/load_fixture.h, open, with an editor of its motion.
class StepTableTest : public ::testing::Test {
 protected:
  StepTableTest() {
    EXPECT_TRUE(session_.open(bench_.file()).empty());
    EXPECT_TRUE(waitUntil([&] { return session_.scene() && session_.board().isComplete(); }));
    QObject::connect(&editor_, &MotionEditor::changed, [this] { table_.refresh(); });
    QObject::connect(&editor_, &MotionEditor::refused,
                     [this](const Problem& problem) { refused_ = problem.what; });
    table_.refresh();
  }
  QString cell(int row, int column) const { return table_.index(row, column).data().toString(); }
  void settle() {
    EXPECT_TRUE(waitUntil([&] { return !session_.isLoading(); }));
  }

  Bench bench_ = Bench::boat();
  Session session_{testReader()};
  MotionEditor editor_{session_};
  StepTable table_{editor_};
  QAbstractItemModelTester tester_{&table_, QAbstractItemModelTester::FailureReportingMode::Fatal};
  std::string refused_;
};

TEST_F(StepTableTest, ShowsTheJointsOfTheStepThatTheNeedleStandsIn) {
  ASSERT_EQ(table_.rowCount(), 1);  // "lift" moves the shoulder from 0 to 90.
  EXPECT_EQ(cell(0, StepTable::JointColumn), "shoulder");
  EXPECT_EQ(cell(0, StepTable::StartColumn), "0°");
  EXPECT_EQ(cell(0, StepTable::EndColumn), "90°");
  session_.stand().moveTo(0.5);  // "reach": wrist 0 to 10 mm, neck to [0, 0, 5].
  ASSERT_EQ(table_.rowCount(), 2);
  EXPECT_EQ(cell(0, StepTable::JointColumn), "wrist");
  EXPECT_EQ(cell(0, StepTable::EndColumn), "10 mm");
  EXPECT_EQ(cell(1, StepTable::EndColumn), "[0, 0, 5]°");
  session_.stand().moveTo(0.9);  // "grab" is a hand's.
  EXPECT_EQ(table_.rowCount(), 0);
  EXPECT_TRUE(table_.otherJoints().isEmpty());
}

TEST_F(StepTableTest, AnEndIsTypedAndIsAnEditOfTheDocument) {
  const QModelIndex end = table_.index(0, StepTable::EndColumn);
  EXPECT_EQ(end.data(Qt::EditRole).toString(), "90");
  ASSERT_TRUE(table_.setData(end, " 62,5° ", Qt::EditRole));
  EXPECT_EQ(session_.document().document().sequences[0].steps[0].moves.at("shoulder"),
            DocumentValue(62.5));
  EXPECT_EQ(cell(0, StepTable::EndColumn), "62.5°");
  // Now the way is short, which is told; the last scene stays.
  EXPECT_TRUE(waitUntil([&] { return !session_.problems().empty(); }));
  EXPECT_TRUE(session_.scene());
  EXPECT_EQ(editor_.shortWay(), "rise");
  editor_.finishWay("rise");
  EXPECT_TRUE(waitUntil([&] { return session_.problems().empty() && !session_.isLoading(); }));
  EXPECT_FALSE(editor_.shortWay());
  EXPECT_EQ(session_.scene()->ways[0].steps.size(), 4u);
}

TEST_F(StepTableTest, WhatIsNoValueOrCannotBeIsRefusedInWords) {
  const QModelIndex end = table_.index(0, StepTable::EndColumn);
  EXPECT_FALSE(table_.setData(end, "up", Qt::EditRole));
  EXPECT_NE(refused_.find("up"), std::string::npos);
  table_.setData(end, "120", Qt::EditRole);  // Its range ends at 90.
  EXPECT_NE(refused_.find("range"), std::string::npos);
  EXPECT_FALSE(session_.document().isModified());
  EXPECT_FALSE(table_.setData(table_.index(0, StepTable::StartColumn), "1", Qt::EditRole));
}

TEST_F(StepTableTest, AnotherJointMovesFromWhereItStands) {
  EXPECT_EQ(table_.otherJoints(), (QStringList{"wrist", "deck clip", "neck"}));
  table_.addJoint("neck");
  ASSERT_EQ(table_.rowCount(), 2);
  EXPECT_EQ(cell(1, StepTable::EndColumn), "[0, 0, 0]°");
  table_.setData(table_.index(1, StepTable::EndColumn), "0 0 2", Qt::EditRole);
  EXPECT_EQ(cell(1, StepTable::EndColumn), "[0, 0, 2]°");
}

TEST_F(StepTableTest, AStepThatWasChosenStaysChosenWhileJointsAreMovedByHand) {
  session_.stand().moveJoint(joint(*session_.scene(), "shoulder"), {0.5, 0, 0});
  editor_.chooseStep(1);
  EXPECT_TRUE(session_.stand().isByHand());
  EXPECT_EQ(editor_.step(), 1u);
  EXPECT_EQ(cell(0, StepTable::JointColumn), "wrist");
  session_.stand().moveTo(0.1);
  EXPECT_EQ(editor_.step(), 0u);
  editor_.chooseStep(2);
  EXPECT_DOUBLE_EQ(session_.stand().instant(), 2.0 / 3) << "at its beginning";
}

TEST_F(StepTableTest, RowsOfModesWaysAndStepsSayWhereItStands) {
  session_.stand().moveTo(1);
  const auto modes = modeRows(editor_);
  ASSERT_EQ(modes.size(), 2u);
  EXPECT_FALSE(modes[0].present);
  EXPECT_TRUE(modes[1].present);
  const auto ways = wayRows(editor_);
  ASSERT_EQ(ways.size(), 1u);
  EXPECT_EQ(ways[0].fact, "boat to robot");
  EXPECT_TRUE(ways[0].present);
  const auto steps = stepRows(editor_);
  ASSERT_EQ(steps.size(), 3u);
  EXPECT_EQ(steps[1].fact, "any order");
  EXPECT_EQ(steps[2].fact, "by hand");
  EXPECT_TRUE(steps[2].present);
}

TEST_F(StepTableTest, NewModesWaysAndStepsComeWithNamesToBeEdited) {
  QStringList added;
  QObject::connect(&editor_, &MotionEditor::modeAdded, [&](const QString& name) { added += name; });
  QObject::connect(&editor_, &MotionEditor::wayAdded, [&](const QString& name) { added += name; });
  QObject::connect(&editor_, &MotionEditor::stepAdded,
                   [&](std::size_t step) { added += QString::number(step); });
  session_.stand().moveTo(1.0 / 6);  // Half of "lift": the shoulder at 45.
  editor_.addModeHere();
  editor_.addModeHere();
  editor_.addWay("robot", "boat");
  EXPECT_EQ(added, (QStringList{"new mode", "new mode 2", "robot to boat"}));
  EXPECT_EQ(editor_.document().modes[2].values->at("shoulder"), DocumentValue(45.0));
  EXPECT_EQ(editor_.way()->name, "robot to boat");
  settle();
  EXPECT_EQ(session_.scene()->ways[session_.stand().way()].name, "robot to boat");
}

TEST_F(StepTableTest, ARenamedWayIsStillTheOneThatIsEdited) {
  session_.stand().moveTo(0.4);
  editor_.renameWay("rise", "stand up");
  EXPECT_EQ(editor_.way()->name, "stand up");
  settle();
  EXPECT_EQ(editor_.way()->name, "stand up");
  EXPECT_EQ(session_.stand().instant(), 0.4);
  EXPECT_TRUE(session_.board().isComplete()) << "a name is nothing to check";
  session_.document().undoStack().undo();
  settle();
  EXPECT_EQ(editor_.way()->name, "rise");
}

TEST(ValueIn, ReadsNumbersAsPeopleTypeThem) {
  const DocumentValue one = 0.0;
  EXPECT_EQ(valueIn("12.5", one), DocumentValue(12.5));
  EXPECT_EQ(valueIn("12,5 mm", one), DocumentValue(12.5));
  EXPECT_EQ(valueIn("-3°", one), DocumentValue(-3.0));
  EXPECT_EQ(valueIn(QString::fromUtf8("\u22123"), one), DocumentValue(-3.0));
  EXPECT_EQ(valueIn(".5", one), DocumentValue(0.5));
  EXPECT_EQ(valueIn("1e1", one), DocumentValue(10.0));
  EXPECT_EQ(valueIn("", one), std::nullopt);
  EXPECT_EQ(valueIn("1 2", one), std::nullopt);
  EXPECT_EQ(valueIn("ten", one), std::nullopt);
  EXPECT_EQ(valueIn("1x", one), std::nullopt);
  EXPECT_EQ(valueIn("1e999", one), std::nullopt);
  const DocumentValue turn = ThreeNumbers{0, 0, 0};
  EXPECT_EQ(valueIn("[1, -2.5, 3]°", turn), DocumentValue(ThreeNumbers{1, -2.5, 3}));
  EXPECT_EQ(valueIn("1 2 3", turn), DocumentValue(ThreeNumbers{1, 2, 3}));
  EXPECT_EQ(valueIn("1, 2", turn), std::nullopt);
  EXPECT_EQ(valueIn("1", turn), std::nullopt);
}

}  // namespace
}  // namespace swingroom
