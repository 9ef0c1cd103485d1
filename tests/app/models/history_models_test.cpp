// The sentences of what turned, and the lists of checks and of what turned between two.
#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QDateTime>
#include <QSignalSpy>

#include "app/models/history/change_lines.h"
#include "app/models/history/comparison_model.h"
#include "app/models/history/go_to_line.h"
#include "app/models/history/history_model.h"
#include "app/models/plurals.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

PairFigure figured(Verdict verdict, double lowerMm, std::optional<double> upperMm,
                   double depthMm = 0) {
  PairFigure figure;
  figure.a = "collar", figure.b = "visor";
  figure.verdict = verdict;
  figure.requiredMm = 0.3;
  figure.lowerMm = lowerMm, figure.upperMm = upperMm, figure.depthMm = depthMm;
  if (upperMm) figure.instant = 0.4, figure.step = "head up", figure.stepNumber = 4;
  return figure;
}

PairChange turned(Change change, const std::optional<PairFigure>& before,
                  const std::optional<PairFigure>& now) {
  return {change, "stand up", "collar", "visor", before, now};
}

QString sentence(const PairChange& change) {
  QString text = lineOf(change, {"visor"}).text;
  return text.replace(QChar(0xA0), QLatin1Char(' '));
}

TEST(ChangeLines, SayTheGapThePlaceAndWhatItWas) {
  installEnglishPlurals();
  const PairFigure wide = figured(Verdict::clear, 0.455, 0.46);
  const PairFigure tight = figured(Verdict::tight, 0.205, 0.21);
  const PairFigure clash = figured(Verdict::clash, 0, 0, 0.35);
  PairFigure far = figured(Verdict::clear, 1.8, std::nullopt);
  EXPECT_EQ(sentence(turned(Change::newFinding, wide, tight)),
            QStringLiteral("visor 0.21 mm from collar at step 4 head up, was 0.46 mm"));
  EXPECT_EQ(sentence(turned(Change::newFinding, wide, clash)),
            QStringLiteral("visor 0.35 mm into collar at step 4 head up, was 0.46 mm"));
  EXPECT_EQ(sentence(turned(Change::solved, clash, wide)),
            QStringLiteral("visor 0.46 mm from collar at step 4 head up, was 0.35 mm deep"));
  EXPECT_EQ(sentence(turned(Change::solved, tight, far)),
            QStringLiteral("visor more than 1.80 mm from collar, was 0.21 mm"));
  EXPECT_EQ(sentence(turned(Change::shrank, far, wide)),
            QStringLiteral("visor 0.46 mm from collar at step 4 head up, was more than 1.80 mm"));
  EXPECT_EQ(sentence(turned(Change::solved, clash, std::nullopt)),
            QStringLiteral("visor and collar are no pair any more, was 0.35 mm deep"));
  EXPECT_EQ(sentence(turned(Change::newFinding, std::nullopt, tight)),
            QStringLiteral("visor 0.21 mm from collar at step 4 head up, was not there"));
}

TEST(ChangeLines, InAModeThatIsLookedAtAloneItIsNamed) {
  PairChange change = turned(Change::newFinding, std::nullopt, figured(Verdict::tight, 0.2, 0.21));
  change.way = "at the oars";
  change.now->step.clear();
  change.now->stepNumber = 0;
  EXPECT_TRUE(sentence(change).contains(QStringLiteral("from collar in mode at the oars,")));
}

TEST(ChangeLines, AStepWithoutANameOfItsOwnIsCountedOnce) {
  PairChange change = turned(Change::newFinding, std::nullopt, figured(Verdict::tight, 0.2, 0.21));
  change.now->step = "step 4";
  EXPECT_EQ(sentence(change),
            QStringLiteral("visor 0.21 mm from collar at step 4, was not there"));
}

TEST(ChangeLines, TwoGapsThatAreCalledBetterAreToldApart) {
  const PairChange change = turned(Change::better, figured(Verdict::tight, 0.286, 0.2861),
                                   figured(Verdict::tight, 0.2889, 0.289));
  EXPECT_EQ(sentence(change),
            QStringLiteral("visor 0.289 mm from collar at step 4 head up, was 0.286 mm"));
}

TEST(ChangeLines, AnEqualFigureAtTheRequiredGapGetsTheDecimalsThatTellThemApart) {
  const PairChange change = turned(Change::newFinding, figured(Verdict::clear, 0.5, 0.51),
                                   figured(Verdict::tight, 0.295, 0.2985));
  EXPECT_TRUE(sentence(change).contains(QStringLiteral("0.299 mm")))
      << sentence(change).toStdString();
}

TEST(ChangeStoryTest, TellsWhoWasSavedTheWorstAndHowManyInAll) {
  installEnglishPlurals();
  CheckedChange change;
  change.files = {"/somewhere/visor.stl"};
  change.parts = {"visor"};
  change.comparison.emplace();
  change.comparison->changes = {turned(Change::newFinding, figured(Verdict::clear, 0.5, 0.51),
                                       figured(Verdict::tight, 0.2, 0.21)),
                                turned(Change::shrank, figured(Verdict::clear, 0.5, 0.51),
                                       figured(Verdict::clear, 0.4, 0.41))};
  change.comparison->changes[1].a = "mast";
  ChangeStory story = storyOf(change);
  EXPECT_EQ(story.heading, QStringLiteral("visor saved"));
  EXPECT_EQ(story.summary, QStringLiteral("1 new finding, 1 smaller gap"));
  EXPECT_TRUE(story.anyWorse);
  EXPECT_EQ(story.lines.size(), 2u);
  EXPECT_TRUE(story.oneLine().startsWith(QStringLiteral("visor saved: visor 0.21")));
  EXPECT_TRUE(story.oneLine().endsWith(QStringLiteral("; in all 1 new finding, 1 smaller gap")));
  change.parts.clear();
  change.comparison->changes.clear();
  story = storyOf(change);
  EXPECT_EQ(story.oneLine(),
            QStringLiteral("visor.stl saved: no gap has changed, as far as is proven"));
}

TEST(ComparisonModelTest, KeepsTheRulesOfModelsAndTheWorstFirst) {
  ComparisonModel model;
  const QAbstractItemModelTester tester(&model,
                                        QAbstractItemModelTester::FailureReportingMode::Fatal);
  Comparison comparison;
  comparison.changes = {
      turned(Change::newFinding, std::nullopt, figured(Verdict::tight, 0.2, 0.21)),
      turned(Change::grew, figured(Verdict::clear, 0.4, 0.41), figured(Verdict::clear, 0.5, 0.51))};
  model.show(comparison);
  ASSERT_EQ(model.rowCount(), 2);
  EXPECT_EQ(model.index(0).data(ComparisonModel::WordRole), QStringLiteral("new finding"));
  EXPECT_EQ(model.index(1).data(ComparisonModel::VerdictRole), static_cast<int>(Verdict::clear));
  QSignalSpy reset(&model, &QAbstractItemModel::modelReset);
  model.show(comparison);
  EXPECT_EQ(reset.count(), 0) << "the same again";
  model.clear();
  EXPECT_EQ(model.rowCount(), 0);
}

TEST(HistoryModelTest, NewestFirstWithWhatHadChangedAndWhatItTurned) {
  installEnglishPlurals();
  HistoryModel model;
  const QAbstractItemModelTester tester(&model,
                                        QAbstractItemModelTester::FailureReportingMode::Fatal);
  LoggedCheck first, second, third;
  first.when = QDateTime::currentSecsSinceEpoch() - 7200;
  second = first, third = first;
  second.parts = {"visor", "mast", "keel"};
  second.counts = {1, 1, 0, 0, 5, 0};
  second.turns = {{Change::newFinding, "a", "b", "w"},
                  {Change::deeper, "a", "c", "w"},
                  {Change::shrank, "a", "d", "w"}};
  second.turnsInAll = 3;
  third.by = "check";
  model.show({first, second, third});
  ASSERT_EQ(model.rowCount(), 3);
  EXPECT_EQ(model.index(0).data(HistoryModel::WhatRole),
            QStringLiteral("checked on the command line"));
  EXPECT_EQ(model.index(1).data(HistoryModel::WhatRole),
            QStringLiteral("visor, mast and 1 more saved"));
  EXPECT_EQ(model.index(1).data(HistoryModel::TurnedRole),
            QStringLiteral("2 findings; 2 worse, 1 smaller gap"));
  EXPECT_TRUE(model.index(1).data(HistoryModel::WorseRole).toBool());
  EXPECT_EQ(model.index(2).data(HistoryModel::TurnedRole), QStringLiteral("no findings"));
  EXPECT_FALSE(model.index(2).data(HistoryModel::WorseRole).toBool());
  EXPECT_EQ(model.check(2), first);
}

TEST(GoToLine, StandsThereOrSaysThatThereIsNoSuchPlaceNow) {
  const Bench bench = Bench::press();
  Session session(testReader());
  ASSERT_EQ(session.open(bench.file()), Problems{});
  ASSERT_TRUE(waitUntilQuiet(session));
  ChangeLine line;
  line.a = "rail", line.b = "sled", line.way = "push", line.instant = 0.25;
  EXPECT_TRUE(goToLine(session, line));
  EXPECT_EQ(session.stand().instant(), 0.25);
  EXPECT_TRUE(session.choice().isChosen(part(*session.scene(), "rail")));
  line.way = "a way that is gone";
  EXPECT_FALSE(goToLine(session, line));
  line.way = "push", line.b = "a part that is gone";
  EXPECT_FALSE(goToLine(session, line));
}

}  // namespace
}  // namespace swingroom
