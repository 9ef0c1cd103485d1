#include "app/panels/way/way_ribbon.h"

#include <gtest/gtest.h>

#include <QScrollBar>
#include <QTest>

#include "app/panels/theme.h"
#include "app/panels/way/line_of_steps.h"
#include "tests/app/panels/picture.h"
#include "tests/app/panels/tug_ribbon.h"

namespace swingroom {
namespace {

constexpr double kExactInstant = 1e-12;
constexpr int kRow = GapRows::kRowHeight;

/// A ribbon whose wishes are granted, as the window grants them.
class WayRibbonTest : public ::testing::Test {
 protected:
  void SetUp() override {
    ribbon_.resize(1024, 400);
    ribbon_.setWay(tugWay(12));
    ribbon_.setRibbon(tugRibbon(40));
    ribbon_.show();
    line_ = ribbon_.findChild<LineOfSteps*>();
    rows_ = ribbon_.findChild<GapRows*>();
    QObject::connect(&ribbon_, &WayRibbon::instantWanted, [this](double instant) {
      wanted_.push_back(instant);
      ribbon_.setInstant(instant);
    });
    QObject::connect(&ribbon_, &WayRibbon::pairWanted, [this](PartId a, PartId b, double instant) {
      pairs_.push_back({a, b});
      wanted_.push_back(instant);
      ribbon_.setChosen(PartPair(a, b));
      ribbon_.setInstant(instant);
    });
  }

  /// By the closed form of the axis that the widget says it has.
  double instantOf(double x) const { return (x - ribbon_.axis().left) / ribbon_.axis().width; }
  double lineY() const { return line_->height() / 2.0; }
  /// A place in a row, in the viewport's coordinates.
  QPointF inRow(std::size_t row, double x) const { return {x, rows_->cellRect(row).center().y()}; }

  WayRibbon ribbon_;
  LineOfSteps* line_ = nullptr;
  GapRows* rows_ = nullptr;
  std::vector<double> wanted_;
  std::vector<PartPair> pairs_;
};

TEST_F(WayRibbonTest, PressAndDragOnTheLineScrub) {
  press(*line_, {431, lineY()}, Qt::AltModifier);
  dragTo(*line_, {555.5, lineY()}, Qt::AltModifier);
  dragTo(*line_, {5000, lineY()}, Qt::AltModifier);
  release(*line_, {5000, lineY()});
  dragTo(*line_, {300, lineY()});
  ASSERT_EQ(wanted_.size(), 3u);
  EXPECT_NEAR(wanted_[0], instantOf(431), kExactInstant);
  EXPECT_NEAR(wanted_[1], instantOf(555.5), kExactInstant);
  EXPECT_EQ(wanted_[2], 1);
}

TEST_F(WayRibbonTest, DraggingSticksToBeadsUnlessAltIsHeld) {
  const double bead = ribbon_.axis().left + ribbon_.axis().width * 5 / 12;
  press(*line_, {bead - 30, lineY()});
  dragTo(*line_, {bead + 3, lineY()});
  dragTo(*line_, {bead + 3, lineY()}, Qt::AltModifier);
  dragTo(*line_, {bead + 6, lineY()});
  ASSERT_EQ(wanted_.size(), 4u);
  EXPECT_NEAR(wanted_[1], 5.0 / 12, kExactInstant);
  EXPECT_NEAR(wanted_[2], instantOf(bead + 3), kExactInstant);
  EXPECT_NEAR(wanted_[3], instantOf(bead + 6), kExactInstant);
}

TEST_F(WayRibbonTest, AStationAndItsNameLeadToItsMode) {
  ribbon_.setInstant(0.4);
  press(*line_, {ribbon_.axis().right() + 5, 34});
  press(*line_, {ribbon_.axis().left, 10});
  EXPECT_EQ(wanted_, (std::vector<double>{1, 0}));
}

TEST_F(WayRibbonTest, ACellChoosesItsPairAtItsInstantAndDragsOn) {
  press(*rows_->viewport(), inRow(3, 600));
  dragTo(*rows_->viewport(), inRow(7, 650), Qt::AltModifier);
  ASSERT_EQ(pairs_.size(), 1u);
  EXPECT_EQ(pairs_[0], PartPair(PartId{3}, PartId{1003}));
  ASSERT_EQ(wanted_.size(), 2u);
  EXPECT_NEAR(wanted_[0], instantOf(600), kExactInstant);
  EXPECT_NEAR(wanted_[1], instantOf(650), kExactInstant);
}

TEST_F(WayRibbonTest, ALabelChoosesItsPairAtItsWorstPlace) {
  Ribbon ribbon = tugRibbon(2);
  ribbon.rows[1].runs.push_back({0.2, 0.7, RibbonTone::tight, 1});
  ribbon.rows[1].runs.push_back({0.3, 0.4, RibbonTone::clash, 1});
  ribbon_.setRibbon(ribbon);
  press(*rows_->viewport(), inRow(1, 40));
  EXPECT_EQ(pairs_, (std::vector<PartPair>{{PartId{1}, PartId{1001}}}));
  ASSERT_EQ(wanted_.size(), 1u);
  EXPECT_NEAR(wanted_[0], 0.35, kExactInstant);
}

TEST_F(WayRibbonTest, KeysMoveTheNeedleAndRun) {
  int runs = 0;
  QObject::connect(&ribbon_, &WayRibbon::runWanted, [&] { ++runs; });
  QTest::keyClick(&ribbon_, Qt::Key_Right);
  QTest::keyClick(&ribbon_, Qt::Key_Right);
  QTest::keyClick(&ribbon_, Qt::Key_Right, Qt::ShiftModifier);
  QTest::keyClick(&ribbon_, Qt::Key_Left);
  QTest::keyClick(&ribbon_, Qt::Key_End);
  QTest::keyClick(&ribbon_, Qt::Key_Home);
  QTest::keyClick(&ribbon_, Qt::Key_Space);
  const std::vector<double> expected = {1.0 / 12, 2.0 / 12, 2.0 / 12 + 0.01, 2.0 / 12, 1, 0};
  ASSERT_EQ(wanted_.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i)
    EXPECT_NEAR(wanted_[i], expected[i], kExactInstant);
  EXPECT_EQ(runs, 1);
}

TEST_F(WayRibbonTest, UpAndDownChooseTheNeighbourAndScrollToIt) {
  for (int i = 0; i < 40; ++i) QTest::keyClick(&ribbon_, Qt::Key_Down);
  ASSERT_EQ(pairs_.size(), 40u);  // From none to the first, then on.
  EXPECT_EQ(pairs_.back(), PartPair(PartId{39}, PartId{1039}));
  EXPECT_LE(rows_->cellRect(39).bottom(), rows_->viewport()->height());
  QTest::keyClick(&ribbon_, Qt::Key_Down);
  EXPECT_EQ(pairs_.size(), 40u);
  QTest::keyClick(&ribbon_, Qt::Key_Up);
  EXPECT_EQ(pairs_.back(), PartPair(PartId{38}, PartId{1038}));
}

TEST_F(WayRibbonTest, APairIsFoundInEitherOrder) {
  ribbon_.setChosen(PartPair(PartId{1005}, PartId{5}));
  EXPECT_EQ(rows_->chosenRow(), 5u);
}

TEST_F(WayRibbonTest, TheLineStaysWhereItIsWhenRowsScroll) {
  const QPoint before = line_->pos();
  rows_->verticalScrollBar()->setValue(100);
  EXPECT_EQ(line_->pos(), before);
  EXPECT_EQ(rows_->cellRect(0).center().y(), kRow / 2.0 - 100);
}

TEST_F(WayRibbonTest, OnlyRowsThatAreSeenArePainted) {
  ribbon_.setRibbon(tugRibbon(780));
  for (const int at : {0, 5000, rows_->verticalScrollBar()->maximum()}) {
    rows_->verticalScrollBar()->setValue(at);
    pictureOf(ribbon_);
    // Those that fit and one cut at either end.
    EXPECT_LE(rows_->lastRowsPainted(), std::size_t(rows_->viewport()->height() / kRow + 2));
    EXPECT_GE(rows_->lastRowsPainted(), std::size_t(rows_->viewport()->height() / kRow));
  }
  EXPECT_LE(rows_->cellRect(779).bottom(), rows_->viewport()->height());
}

TEST_F(WayRibbonTest, FarAndWaitingPairsHaveRowsOfTheirOwn) {
  Ribbon ribbon = tugRibbon(5);
  ribbon.farPairs = 612;
  ribbon.waiting = 118;
  ribbon_.setRibbon(ribbon);
  EXPECT_EQ(rows_->rowCount(), 7u);
  press(*rows_->viewport(), inRow(5, 40));
  EXPECT_TRUE(pairs_.empty());
}

TEST_F(WayRibbonTest, TooltipSaysPairFigureStepAndInstant) {
  const double x = ribbon_.axis().xAt(0.5);
  const QString text = rows_->tooltipAt(inRow(2, x));
  for (const char* words : {"forearm_left, boathook", "clear", "0.20 mm", "step 7", "0.50"}) {
    EXPECT_TRUE(text.contains(QLatin1String(words))) << text.toStdString();
  }
}

TEST_F(WayRibbonTest, StepLabelsStayApartAndThePresentOneIsWhole) {
  for (const int width : {700, 1024, 1440, 2560}) {
    ribbon_.resize(width, 400);
    ribbon_.setInstant(0.99);
    const auto labels = line_->stepLabels();
    int present = 0;
    for (std::size_t i = 0; i < labels.size(); ++i) {
      EXPECT_GE(labels[i].rect.left(), 0);
      EXPECT_LE(labels[i].rect.right(), width);
      if (labels[i].present) ++present;
      if (labels[i].present && width < 1440) {
        EXPECT_EQ(labels[i].text, QStringLiteral("12 move 11 of the arms"));
      }
      for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(labels[i].rect.intersects(labels[j].rect));
    }
    EXPECT_EQ(present, 1);
  }
}

TEST_F(WayRibbonTest, AModeOnItsOwnHasNoWayToGo) {
  WayLine alone{QStringLiteral("Tug"), {}, {}, true};
  ribbon_.setWay(alone);
  press(*line_, {500, lineY()});
  QTest::keyClick(&ribbon_, Qt::Key_Right);
  dragTo(*rows_->viewport(), inRow(1, 500));
  EXPECT_TRUE(wanted_.empty());
  EXPECT_TRUE(line_->stepLabels().empty());
  EXPECT_LT(rows_->cellRect(0).width(), ribbon_.axis().width / 2);
}

TEST_F(WayRibbonTest, ScreenReadersHearWhereTheNeedleStands) {
  ribbon_.setInstant(0.5);
  EXPECT_TRUE(ribbon_.accessibleName().contains(QStringLiteral("Deckhand")));
  EXPECT_TRUE(ribbon_.accessibleDescription().contains(QStringLiteral("0.50")));
}

TEST(WorstInstant, ClashBeforeTightBeforeNearestGap) {
  RibbonRow row =
      tugRow(0, {{0, 0.1, RibbonTone::gap, 0.2}, {0.1, 0.3, RibbonTone::gap, 0.9}}, Verdict::clear);
  EXPECT_NEAR(*worstInstant(row), 0.2, kExactInstant);
  row.runs.push_back({0.6, 0.8, RibbonTone::tight, 1});
  EXPECT_NEAR(*worstInstant(row), 0.7, kExactInstant);
  row.runs.push_back({0.9, 1, RibbonTone::clash, 1});
  EXPECT_NEAR(*worstInstant(row), 0.95, kExactInstant);
}

TEST(WorstInstant, ARowOfOneToneHasNone) {
  EXPECT_FALSE(worstInstant(tugRow(0, {{0, 1, RibbonTone::allowed, 0}}, Verdict::allowed)));
  EXPECT_FALSE(worstInstant(tugRow(0, {{0, 1, RibbonTone::clash, 1}}, Verdict::clash)));
}

}  // namespace
}  // namespace swingroom
