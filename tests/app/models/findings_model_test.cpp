#include "app/models/findings_filter.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>

#include "app/edits/pair_edits.h"
#include "tests/app/support/assemblies.h"

namespace swingroom {
namespace {

class FindingsModelTest : public ::testing::Test {
 protected:
  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (int row = 0; row < shown_.rowCount(); ++row) {
      names.push_back(shown_.index(row, 0).data().toString().toStdString());
    }
    return names;
  }
  QString cause(int row) const {
    return shown_.index(row, 0).data(FindingsModel::CauseRole).toString();
  }

  Bench bench_ = Bench::press();
  FindingsModel model_;
  FindingsFilter shown_{model_};
  QAbstractItemModelTester tester_{&model_, QAbstractItemModelTester::FailureReportingMode::Fatal};
  QAbstractItemModelTester shownTester_{&shown_,
                                        QAbstractItemModelTester::FailureReportingMode::Fatal};
};

TEST_F(FindingsModelTest, AreWorstFirstWithTheirFiguresAndPlaces) {
  model_.show(checkedBoard(bench_.scene()));
  EXPECT_EQ(names(), (std::vector<std::string>{"block and sled", "sled and rail"}));
  const FindingRow& clash = shown_.row(shown_.index(0, 0));
  EXPECT_EQ(clash.verdict, Verdict::clash);
  ASSERT_EQ(numbersIn(clash.figure.toStdString()).size(), 1u);
  EXPECT_NEAR(numbersIn(clash.figure.toStdString())[0], 1, 0.02)
      << "4 - 5, within what is promised";
  EXPECT_TRUE(clash.figure.contains(QStringLiteral("deep")));
  EXPECT_TRUE(clash.where.contains(QStringLiteral("push in"))) << clash.where.toStdString();
  const FindingRow& tight = shown_.row(shown_.index(1, 0));
  EXPECT_EQ(tight.verdict, Verdict::tight);
  EXPECT_NEAR(numbersIn(tight.figure.toStdString()).at(0), 0.2, 0.01);
  const QString told = shown_.index(0, 0).data(Qt::AccessibleTextRole).toString();
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
  shown_.setListed({FindingKind::finding, Verdict::tight});
  EXPECT_EQ(names(), std::vector<std::string>{"sled and rail"});
  shown_.setListed({FindingKind::finding, Verdict::loose});
  EXPECT_EQ(shown_.rowCount(), 0);
  shown_.setListed({});
  EXPECT_EQ(shown_.rowCount(), 2);
}

// The press as its fixture says: the slide "sled way" joins block and sled; the cap is fixed to the
// block by "cap seat" and touches it.
TEST_F(FindingsModelTest, PairsThatTouchByDesignAreListedWithWhatLetsThem) {
  model_.show(checkedBoard(bench_.scene()));
  EXPECT_EQ(shown_.countOf({FindingKind::byDesign, std::nullopt}), 1u);
  shown_.setListed({FindingKind::byDesign, std::nullopt});
  EXPECT_EQ(names(), std::vector<std::string>{"block and cap"});
  const FindingRow& row = shown_.row(shown_.index(0, 0));
  EXPECT_TRUE(row.where.contains(QStringLiteral("cap seat"))) << row.where.toStdString();
  EXPECT_EQ(row.verdict, Verdict::clear);
}

TEST_F(FindingsModelTest, AllowedPairsAreListedWithTheirReason) {
  model_.show(checkedBoard(
      bench_.scene(edits::allowance(bench_.document(), "sled", "rail", "it is felt"))));
  EXPECT_EQ(names(), std::vector<std::string>{"block and sled"});
  shown_.setListed({FindingKind::allowed, std::nullopt});
  EXPECT_EQ(names(), std::vector<std::string>{"sled and rail"});
  EXPECT_TRUE(shown_.row(shown_.index(0, 0)).where.contains(QStringLiteral("it is felt")));
}

TEST_F(FindingsModelTest, EveryWordMustBeFoundInPartsOrJointsWhateverTheCase) {
  model_.show(checkedBoard(bench_.scene()));
  const std::pair<const char*, std::vector<std::string>> searches[] = {
      {"SLED", {"block and sled", "sled and rail"}},
      {"  rai ", {"sled and rail"}},
      {"sled, block", {"block and sled"}},
      {"rail block", {}},
      {"Way", {"block and sled"}},  // The joint between them.
      {"clash", {}},
      {"", {"block and sled", "sled and rail"}}};
  for (const auto& [words, expected] : searches) {
    shown_.setSearch(QString::fromLatin1(words));
    EXPECT_EQ(names(), expected) << words;
  }
}

TEST_F(FindingsModelTest, OnlyPairsOfAPartAreShownWhenAsked) {
  const ScenePtr scene = bench_.scene();
  model_.show(checkedBoard(scene));
  shown_.setPart(part(*scene, "rail"));
  EXPECT_EQ(names(), std::vector<std::string>{"sled and rail"});
  shown_.setPart(part(*scene, "post"));
  EXPECT_TRUE(names().empty());
  EXPECT_TRUE(shown_.isNarrowed());
  shown_.setPart(std::nullopt);
  EXPECT_EQ(names().size(), 2u);
  EXPECT_FALSE(shown_.isNarrowed());
}

// Block and sled are worst at the end of "push"; sled and rail are 0.2 apart all along, so from
// instant 0 on. Their margins are -1 and 0.2 - 0.3.
TEST_F(FindingsModelTest, AreSortedAlongTheWayByPartAndByMargin) {
  using Names = std::vector<std::string>;
  using Order = FindingsFilter::Order;
  AssemblyDocument document = edits::requiredGap(bench_.document(), "block", "rail", 2.5);
  model_.show(checkedBoard(bench_.scene(document)));  // Rail and block are 2 apart.
  const Names worst{"block and sled", "block and rail", "sled and rail"};
  EXPECT_EQ(names(), worst);
  shown_.setOrder(Order::alongTheWay);
  EXPECT_EQ(names().back(), "block and sled");
  EXPECT_TRUE(cause(0).isEmpty());
  shown_.setOrder(Order::byPart);
  EXPECT_EQ(names(), (Names{"block and rail", "block and sled", "sled and rail"}));
  shown_.setOrder(Order::byMargin);
  EXPECT_EQ(names(), (Names{"block and sled", "block and rail", "sled and rail"}));
  shown_.setOrder(Order::worstFirst);
  EXPECT_EQ(names(), worst);
}

TEST_F(FindingsModelTest, ACommonCauseStandsOnTheFirstOfItsFindingsOnly) {
  // A second block behind the first, not linked to the sled: both clashes begin by the slide.
  moveStl(bench_.folder() / "post.stl", {-100.2, 0, 0});  // From -0.2 to 9.8: 0.2 behind the block.
  AssemblyDocument document = edits::allowance(bench_.document(), "block", "post", "one body");
  document = edits::allowance(document, "cap", "post", "one body");
  document.joints[0].parent.reset();  // Else the joint's own pair is taken for a missing zone.
  document.joints[0].zones.clear();
  model_.show(checkedBoard(bench_.scene(document)));
  ASSERT_GE(shown_.rowCount(), 2);
  ASSERT_EQ(names()[0], "block and sled");
  ASSERT_EQ(names()[1], "sled and post");
  EXPECT_TRUE(cause(0).contains(QStringLiteral("sled way"))) << cause(0).toStdString();
  EXPECT_TRUE(cause(1).isEmpty());
  shown_.setSearch(QStringLiteral("post"));
  ASSERT_EQ(names()[0], "sled and post");
  EXPECT_TRUE(cause(0).contains(QStringLiteral("sled way"))) << "now it is the first that is shown";
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
      EXPECT_GE(shown_.rowCount(), last);
      last = shown_.rowCount();
    }
  }
  EXPECT_EQ(last, 2);
  model_.show(CheckBoard());
  EXPECT_EQ(model_.rowCount(), 0);
  EXPECT_EQ(shown_.rowCount(), 0);
}

TEST_F(FindingsModelTest, APairIsFoundWhereItIsShown) {
  const ScenePtr scene = bench_.scene();
  model_.show(checkedBoard(scene));
  const PartPair tight(part(*scene, "sled"), part(*scene, "rail"));
  EXPECT_EQ(shown_.indexOf(tight).row(), 1);
  EXPECT_FALSE(shown_.indexOf({part(*scene, "block"), part(*scene, "post")}).isValid());
  shown_.setListed({FindingKind::finding, Verdict::clash});
  EXPECT_FALSE(shown_.indexOf(tight).isValid());
}

}  // namespace
}  // namespace swingroom
