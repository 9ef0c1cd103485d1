// The session against core's check, called directly.
#include "app/session/session.h"

#include <gtest/gtest.h>

#include <QSignalSpy>

#include "app/edits/pair_edits.h"
#include "app/session/check/report_writer.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

constexpr double kStlMm = 5e-6;         ///< STL coordinates are single precision.
constexpr double kDrawnDepthMm = 0.06;  ///< What is asked for in a curve: two pixels.

class SessionTest : public ::testing::Test {
 protected:
  void openAndWait(const Bench& bench) {
    ASSERT_EQ(session_.open(bench.file()), Problems{});
    ASSERT_TRUE(waitUntilQuiet(session_));
    ASSERT_TRUE(session_.scene());
    ASSERT_TRUE(session_.board().isComplete());
  }
  /// Stops the check whenever it starts, before a result can arrive.
  QMetaObject::Connection stopAtOnce() {
    return QObject::connect(&session_, &Session::activityChanged, [this] {
      if (session_.isChecking()) session_.stopCheck();
    });
  }
  void edit(const AssemblyDocument& document) {
    session_.document().edit(QStringLiteral("edit"), document);
  }
  const AssemblyDocument& document() { return session_.document().document(); }
  void expectAsSwept() {
    ASSERT_TRUE(session_.board().isComplete());
    EXPECT_EQ(session_.board().scene(), session_.scene());
    EXPECT_EQ(session_.board().report().results, swept(*session_.scene()));
  }

  Bench bench_ = Bench::hatchBox();
  Bench press_ = Bench::press();
  Session session_{testReader()};
};

TEST_F(SessionTest, AGoodFileEndsWithASceneAndWhatCoresCheckFinds) {
  openAndWait(bench_);
  EXPECT_EQ(session_.scene()->document, bench_.document());
  EXPECT_EQ(session_.document().file(), bench_.file());
  EXPECT_FALSE(session_.document().isModified());
  EXPECT_EQ(session_.problems(), Problems{});
  expectAsSwept();
  EXPECT_TRUE(session_.board().findings().empty());
}

TEST_F(SessionTest, ClashesOnSeveralWaysComeOutAsInCoresCheck) {
  openAndWait(press_);
  expectAsSwept();
  EXPECT_EQ(session_.board().findings().size(), 2u);
}

TEST_F(SessionTest, ARelativePathOpensTheSameFile) {
  const auto relative = std::filesystem::relative(bench_.file());
  ASSERT_TRUE(relative.is_relative());
  ASSERT_EQ(session_.open(relative), Problems{});
  EXPECT_EQ(session_.document().file(), bench_.file());
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_TRUE(session_.board().isComplete());
}

TEST_F(SessionTest, AnEditOfOnePairsRequiredGapChecksThatPairOnly) {
  openAndWait(bench_);
  std::optional<std::size_t> keptAtFirst;
  QObject::connect(&session_, &Session::sceneChanged, [&] {
    keptAtFirst = session_.board().pairsKnown();
    EXPECT_FALSE(session_.board().isKnown(0, pairOf(session_.board(), "box", "lid")));
  });
  edit(edits::requiredGap(document(), "lid", "box", 0.6));
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(keptAtFirst, 2u) << "of three";
  expectAsSwept();
  // README.md of the sample: the gap is 0.5.
  EXPECT_EQ(resultOf(session_.board(), 0, "box", "lid").verdict, Verdict::tight);
  session_.document().undoStack().undo();
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(resultOf(session_.board(), 0, "box", "lid").verdict, Verdict::clear);
  expectAsSwept();
}

TEST_F(SessionTest, AnEditOfAColourChecksNothing) {
  openAndWait(bench_);
  bool checked = false;
  QObject::connect(&session_, &Session::activityChanged,
                   [&] { checked = checked || session_.isChecking(); });
  edit(edits::colour(document(), "lid", "#102030"));
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_FALSE(checked);
  EXPECT_EQ(session_.scene()->document.parts[1].colour, "#102030");
  expectAsSwept();
}

TEST_F(SessionTest, APartThatAnEditTakesAwayIsNotChosenAnyMore) {
  session_.open(bench_.file());
  ASSERT_TRUE(waitUntilQuiet(session_));
  AssemblyDocument fewer = document();
  const std::size_t before = fewer.parts.size();
  const std::string gone = fewer.parts.back().name;
  fewer.parts.pop_back();
  std::erase_if(fewer.joints, [&](const DocumentJoint& joint) { return joint.child == gone; });
  fewer.modes.clear();
  fewer.sequences.clear();
  std::erase_if(fewer.pairs, [&](const DocumentPair& pair) {
    return pair.parts[0] == gone || pair.parts[1] == gone;
  });
  session_.choice().chooseParts({PartId{0}, PartId{before - 1}});
  edit(fewer);
  ASSERT_TRUE(waitUntil([&] { return session_.scene()->geometry.size() == before - 1; }));
  EXPECT_EQ(session_.choice().parts(), std::vector<PartId>{PartId{0}});
}

TEST_F(SessionTest, SavingInAnotherFolderChecksNothingAgain) {
  openAndWait(bench_);
  std::filesystem::create_directory(bench_.folder() / "deep");
  bool checked = false;
  QObject::connect(&session_, &Session::activityChanged,
                   [&] { checked = checked || session_.isChecking(); });
  ASSERT_EQ(session_.document().saveAs(bench_.folder() / "deep" / "a.swing.json"), std::nullopt);
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_FALSE(checked);
  EXPECT_EQ(session_.problems(), Problems{});
  expectAsSwept();
}

TEST_F(SessionTest, AMeshThatChangedOnDiskGivesTheNewResultWhenCheckedAgain) {
  openAndWait(bench_);
  // README.md of the sample: the bolt stands 0.4 from the guide on each side, 0.6 from the keeper.
  moveStl(bench_.folder() / "bolt.stl", {0.15, 0, 0});
  session_.checkAgain();
  ASSERT_TRUE(waitUntilQuiet(session_));
  expectAsSwept();
  const PairResult& inGuide = resultOf(session_.board(), 0, "lid", "bolt");
  EXPECT_EQ(inGuide.verdict, Verdict::tight);
  EXPECT_LE(inGuide.gap.lowerMm, 0.25 + kStlMm);
  EXPECT_GE(inGuide.gap.upperMm.value(), 0.25 - kStlMm);
  const PairResult& inKeeper = resultOf(session_.board(), 0, "box", "bolt");
  EXPECT_LE(inKeeper.gap.lowerMm, 0.45 + kStlMm);
  EXPECT_GE(inKeeper.gap.upperMm.value(), 0.45 - kStlMm);
}

TEST_F(SessionTest, CheckingAgainForgetsFirst) {
  openAndWait(press_);
  session_.checkAgain();
  EXPECT_EQ(session_.board().pairsKnown(), 0u);
  ASSERT_TRUE(waitUntilQuiet(session_));
  expectAsSwept();
}

TEST_F(SessionTest, NothingArrivesAfterAStopAndGoingOnComesToTheSame) {
  const auto stopping = stopAtOnce();
  ASSERT_EQ(session_.open(press_.file()), Problems{});
  ASSERT_TRUE(waitUntil([&] { return session_.scene() && !session_.isChecking(); }));
  letTimePass();
  EXPECT_EQ(session_.board().pairsKnown(), 0u);
  EXPECT_FALSE(session_.board().isComplete());
  QObject::disconnect(stopping);
  session_.checkAgain();
  ASSERT_TRUE(waitUntilQuiet(session_));
  expectAsSwept();
}

TEST_F(SessionTest, WhatArrivedBeforeAStopIsKeptAndNotCheckedTwice) {
  openAndWait(bench_);
  const auto stopping = stopAtOnce();
  edit(edits::requiredGap(document(), "box", "lid", 0.6));
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(session_.board().pairsKnown(), 2u);
  QObject::disconnect(stopping);
  std::size_t least = 99;
  QObject::connect(&session_, &Session::boardChanged,
                   [&] { least = std::min(least, session_.board().pairsKnown()); });
  session_.checkAgain();
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(least, 2u);
  expectAsSwept();
}

TEST_F(SessionTest, EditsInQuickSuccessionEndWithTheLast) {
  openAndWait(press_);
  for (const double gap : {0.6, 0.2, 0.7, 0.55}) {
    edit(edits::requiredGap(document(), "rail", "sled", gap));
  }
  ASSERT_TRUE(waitUntilQuiet(session_));
  EXPECT_EQ(resultOf(session_.board(), 0, "sled", "rail").requiredGapMm, 0.55);
  expectAsSwept();
}

TEST_F(SessionTest, StepsOfOneNumberInQuickSuccessionAreUndoneTogether) {
  openAndWait(press_);
  for (const double gap : {0.6, 0.2, 0.7}) {
    edit(edits::requiredGap(document(), "rail", "sled", gap));
  }
  session_.document().undoStack().undo();
  EXPECT_EQ(edits::ruleFor(document(), "rail", "sled"), nullptr);  // As in the file.
  EXPECT_FALSE(session_.document().isModified());
}

TEST_F(SessionTest, AnotherFileOpenedWhileOneIsCheckedIsNotMixedWithIt) {
  const auto tug = sampleFile("harbour_tug_draft/harbour_tug_draft.swing.json");
  ASSERT_EQ(session_.open(tug), Problems{});
  ASSERT_TRUE(waitUntil([&] { return session_.isChecking(); }));
  EXPECT_GT(session_.board().pairsInAll(), 3u);
  QObject::connect(&session_, &Session::boardChanged, [&] {
    if (!session_.scene()) return;
    EXPECT_EQ(session_.board().pairsInAll(), 3u);
  });
  openAndWait(bench_);
  letTimePass();
  expectAsSwept();
  EXPECT_TRUE(session_.board().findings().empty()) << "the draft of the tug has some";
}

TEST_F(SessionTest, ASecondFileOpenedWhileOneIsReadWins) {
  ASSERT_EQ(session_.open(press_.file()), Problems{});
  openAndWait(bench_);
  letTimePass();
  EXPECT_EQ(session_.scene()->assembly().name(), "Hatch box");
  EXPECT_EQ(session_.document().file(), bench_.file());
}

TEST(SessionEnd, ComesWhileTheTugIsReadAndWhileItIsChecked) {
  const auto tug = sampleFile("harbour_tug_draft/harbour_tug_draft.swing.json");
  {
    Session session(testReader());
    ASSERT_EQ(session.open(tug), Problems{});
    ASSERT_TRUE(session.isLoading());
  }
  {
    Session session(testReader());
    ASSERT_EQ(session.open(tug), Problems{});
    ASSERT_TRUE(waitUntil([&] { return session.isChecking(); }));
    session.goToWorst(PartId{0}, PartId{1});
  }
  SUCCEED();
}

TEST_F(SessionTest, ANewDocumentIsCheckedAndIsNotOnDisk) {
  session_.start(bench_.document(), bench_.folder() / "new.swing.json");
  EXPECT_TRUE(session_.document().isModified());
  ASSERT_TRUE(waitUntilQuiet(session_));
  expectAsSwept();
  EXPECT_FALSE(std::filesystem::exists(bench_.folder() / "new.swing.json"));
}

TEST_F(SessionTest, GoToWorstStandsWhereThePairIsWorst) {
  openAndWait(press_);
  session_.stand().showWay(1);
  int went = 0;
  QObject::connect(&session_, &Session::wentToWorst, [&] { ++went; });
  session_.goToWorst(part(*session_.scene(), "sled"), part(*session_.scene(), "block"));
  EXPECT_EQ(went, 1);
  EXPECT_EQ(session_.stand().way(), 0u) << "where it clashes, not where it was shown";
  EXPECT_NEAR(session_.stand().instant(), 1, 1e-4) << "deepest at the end of the push";
  EXPECT_EQ(session_.choice().pair(),
            PartPair(part(*session_.scene(), "block"), part(*session_.scene(), "sled")));
}

TEST_F(SessionTest, TheChosenPairIsMeasuredMoreCloselyWithItsDepths) {
  openAndWait(press_);
  const std::size_t pair = pairOf(session_.board(), "block", "sled");
  const auto curve = [&] { return session_.board().figures(0, pair).curve; };
  const std::size_t atFirst = curve().size();
  session_.choice().choosePair(part(*session_.scene(), "sled"), part(*session_.scene(), "block"));
  ASSERT_TRUE(waitUntil([&] { return curve().size() > atFirst; }));
  for (const GapSample& sample : curve()) {
    EXPECT_NEAR(sample.gapMm, std::min(1.8, 4 - 5 * sample.instant), kDrawnDepthMm)
        << sample.instant;
  }
}

TEST_F(SessionTest, AReportIsWrittenOfACompleteBoard) {
  openAndWait(bench_);
  ReportWriter writer;
  std::optional<std::optional<Problem>> done;
  QObject::connect(&writer, &ReportWriter::done,
                   [&](const auto&, const std::optional<Problem>& problem) { done = problem; });
  writer.write(session_.board(), nullptr, bench_.file(), bench_.folder() / "report");
  EXPECT_TRUE(writer.isWriting());
  ASSERT_TRUE(waitUntil([&] { return done.has_value(); }));
  EXPECT_EQ(*done, std::nullopt);
  for (const char* name : {"report.html", "report.json", "pairs.csv"}) {
    EXPECT_FALSE(bytesOf(bench_.folder() / "report" / name).empty()) << name;
  }
  done.reset();
  writer.write(session_.board(), nullptr, bench_.file(), bench_.file() / "under a file");
  ASSERT_TRUE(waitUntil([&] { return done.has_value(); }));
  EXPECT_TRUE(*done) << "it cannot be made";
  EXPECT_FALSE(writer.isWriting());
}

}  // namespace
}  // namespace swingroom
