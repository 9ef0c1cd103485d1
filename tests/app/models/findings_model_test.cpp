#include "app/models/findings_model.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>

#include "app/session/edits.h"
#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

class FindingsModelTest : public ::testing::Test {
 protected:
  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (int row = 0; row < model_.rowCount(); ++row) {
      names.push_back(model_.index(row).data().toString().toStdString());
    }
    return names;
  }
  QString cause(int row) const {
    return model_.index(row).data(FindingsModel::CauseRole).toString();
  }

  Bench bench_ = Bench::press();
  FindingsModel model_;
  QAbstractItemModelTester tester_{&model_, QAbstractItemModelTester::FailureReportingMode::Fatal};
};

TEST_F(FindingsModelTest, AreWorstFirstWithTheirFiguresAndPlaces) {
  model_.show(checkedBoard(bench_.scene()));
  EXPECT_EQ(names(), (std::vector<std::string>{"block and sled", "sled and rail"}));
  const FindingRow& clash = model_.row(model_.index(0));
  EXPECT_EQ(clash.verdict, Verdict::clash);
  ASSERT_EQ(numbersIn(clash.figure.toStdString()).size(), 1u);
  EXPECT_NEAR(numbersIn(clash.figure.toStdString())[0], 1, 0.02)
      << "4 - 5, within what is promised";
  EXPECT_TRUE(clash.figure.contains(QStringLiteral("deep")));
  EXPECT_TRUE(clash.where.contains(QStringLiteral("push in"))) << clash.where.toStdString();
  const FindingRow& tight = model_.row(model_.index(1));
  EXPECT_EQ(tight.verdict, Verdict::tight);
  EXPECT_NEAR(numbersIn(tight.figure.toStdString()).at(0), 0.2, 0.01);
  const QString told = model_.index(0).data(Qt::AccessibleTextRole).toString();
  EXPECT_TRUE(told.startsWith(QStringLiteral("clash"))) << "colours are never alone";
}

TEST_F(FindingsModelTest, TheDeeperOfTwoClashesAndTheTighterOfTwoGapsComeFirst) {
  // The rail lowered by 0.7 reaches 0.5 into the sled; the post comes 0.1 from the block.
  moveStl(bench_.folder() / "rail.stl", {0, 0, -0.7});
  moveStl(bench_.folder() / "post.stl", {-89.9, 0, 0});
  AssemblyDocument document = edits::allowance(bench_.document(), "sled", "post", "not this one");
  document = edits::allowance(document, "rail", "post", "nor this one");
  document = edits::requiredGap(document, "cap", "post", 2.2);  // From x = 8 to 10.1.
  model_.show(checkedBoard(bench_.scene(document)));
  // Of the gaps one is 0.2 short of what is required, the other 0.1.
  EXPECT_EQ(names(), (std::vector<std::string>{"block and sled", "sled and rail", "block and post",
                                               "cap and post"}));
}

TEST_F(FindingsModelTest, OnlyOneVerdictIsShownWhenAsked) {
  model_.show(checkedBoard(bench_.scene()));
  model_.showOnly(Verdict::tight);
  EXPECT_EQ(names(), std::vector<std::string>{"sled and rail"});
  model_.showOnly(Verdict::loose);
  EXPECT_EQ(model_.rowCount(), 0);
  model_.showOnly(std::nullopt);
  EXPECT_EQ(model_.rowCount(), 2);
}

TEST_F(FindingsModelTest, ACommonCauseStandsOnTheFirstOfItsFindingsOnly) {
  // A second block behind the first, not linked to the sled: both clashes begin by the slide.
  moveStl(bench_.folder() / "post.stl", {-100.2, 0, 0});  // From -0.2 to 9.8: 0.2 behind the block.
  AssemblyDocument document = edits::allowance(bench_.document(), "block", "post", "one body");
  document = edits::allowance(document, "cap", "post", "one body");
  document.joints[0].parent.reset();  // Else the joint's own pair is taken for a missing zone.
  document.joints[0].zones.clear();
  model_.show(checkedBoard(bench_.scene(document)));
  ASSERT_GE(model_.rowCount(), 2);
  ASSERT_EQ(names()[0], "block and sled");
  ASSERT_EQ(names()[1], "sled and post");
  EXPECT_TRUE(cause(0).contains(QStringLiteral("sled way"))) << cause(0).toStdString();
  EXPECT_TRUE(cause(1).isEmpty());
}

TEST_F(FindingsModelTest, FillsInAsResultsCome) {
  const ScenePtr scene = bench_.scene();
  const auto results = swept(*scene);
  CheckBoard board(scene);
  int last = 0;
  for (std::size_t w = 0; w < results.size(); ++w) {
    for (std::size_t p = 0; p < results[w].pairs.size(); ++p) {
      board.put(checkedOnce(*scene, w, p, results[w].pairs[p]));
      board.refresh();
      model_.show(board);
      EXPECT_GE(model_.rowCount(), last);
      last = model_.rowCount();
    }
  }
  EXPECT_EQ(last, 2);
  model_.show(CheckBoard());
  EXPECT_EQ(model_.rowCount(), 0);
}

TEST_F(FindingsModelTest, APairIsFoundWhereItIsShown) {
  const ScenePtr scene = bench_.scene();
  model_.show(checkedBoard(scene));
  const PartPair tight(part(*scene, "sled"), part(*scene, "rail"));
  EXPECT_EQ(model_.indexOf(tight).row(), 1);
  EXPECT_FALSE(model_.indexOf({part(*scene, "block"), part(*scene, "post")}).isValid());
  model_.showOnly(Verdict::clash);
  EXPECT_FALSE(model_.indexOf(tight).isValid());
}

}  // namespace
}  // namespace swingroom
