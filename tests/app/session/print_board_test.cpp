// The print checks in the background: when they run, of what they are, and what is said meanwhile.
#include "app/session/print/print_board.h"

#include <gtest/gtest.h>

#include <QSignalSpy>

#include "app/edits/pair_edits.h"
#include "app/models/activity.h"
#include "app/models/print/print_standing.h"
#include "app/models/print/printed_facts.h"
#include "core/report/print/print_report.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/support/prints.h"
#include "tests/app/support/wait.h"

namespace swingroom {
namespace {

/// The press of tests/app/support/assemblies.h: the rail stays 0.2 mm above the sled.
class PrintBoardTest : public ::testing::Test {
 protected:
  void openPress() {
    ASSERT_TRUE(session_.open(press_.file()).empty());
    ASSERT_TRUE(waitUntilQuiet(session_));
  }
  void waitForPrint() {
    ASSERT_TRUE(waitUntil([&] {
      return !board_.isOld() && (board_.state() == PrintBoard::State::done ||
                                 board_.state() == PrintBoard::State::failed);
    }));
  }
  std::string said() const { return asPrintedWords(printStanding(board_)).toStdString(); }
  void edit(const std::function<void(AssemblyDocument&)>& change) {
    AssemblyDocument document = session_.document().document();
    change(document);
    session_.document().edit(QStringLiteral("test"), document);
  }

  Bench press_ = Bench::press();
  Session session_{testReader()};
  PrintBoard board_{session_, tablesWithGrowth(0.15)};
};

TEST_F(PrintBoardTest, NothingIsSaidBeforeEveryGapIsProven) {
  EXPECT_EQ(said(), "as printed: not checked");
  bool wasChecked = false;
  QObject::connect(&board_, &PrintBoard::changed, [&] {
    const bool looks = board_.state() == PrintBoard::State::looking;
    if (looks || (board_.known() && !board_.isOld())) {
      EXPECT_TRUE(session_.isProven());
      wasChecked = true;
    }
  });
  openPress();
  waitForPrint();
  EXPECT_TRUE(wasChecked);
  EXPECT_EQ(board_.state(), PrintBoard::State::done);
}

// 0.15 mm on each of the two surfaces leave 0.2 - 0.3 mm.
TEST_F(PrintBoardTest, AGapThatGrowthClosesIsAFinding) {
  openPress();
  waitForPrint();
  ASSERT_NE(board_.known(), nullptr);
  const PrintFindings& found = board_.known()->result.findings;
  const auto closes = std::find_if(found.begin(), found.end(), [&](const PrintFinding& finding) {
    const PartId sled = part(*session_.scene(), "sled"), rail = part(*session_.scene(), "rail");
    return finding.word == PrintWord::closesAsPrinted &&
           finding.parts == std::vector{std::min(sled, rail), std::max(sled, rail)};
  });
  ASSERT_NE(closes, found.end());
  constexpr double kResolutionMm = 0.01;
  EXPECT_LE(closes->lower, -0.1 + 1e-5);
  EXPECT_GE(closes->upper, -0.1 - 1e-5);
  EXPECT_LE(closes->upper - closes->lower, kResolutionMm + 1e-9);
  EXPECT_EQ(printStanding(board_).state, PrintState::known);
  EXPECT_FALSE(printStanding(board_).passes());
  EXPECT_EQ(said().substr(0, 12), "as printed: ");
  EXPECT_NE(said().find("finding"), std::string::npos) << said();
  EXPECT_NE(activityText(session_, printStanding(board_)).toStdString().find(said()),
            std::string::npos);
  const auto facts =
      printedFacts(board_, {part(*session_.scene(), "sled"), part(*session_.scene(), "rail")});
  ASSERT_FALSE(facts.empty());
  EXPECT_TRUE(facts.front().value.contains(QStringLiteral("closes")))
      << facts.front().value.toStdString();
}

TEST_F(PrintBoardTest, AnEditMakesItOldAndItIsCheckedAnew) {
  openPress();
  waitForPrint();
  const PrintKnownPtr before = board_.known();
  edit([](AssemblyDocument& document) { document.requiredGap = 0.25; });
  EXPECT_TRUE(board_.isOld()) << "at once, not when the scene is made";
  EXPECT_EQ(board_.known(), before) << "what was known stays to be seen";
  const auto said = printStanding(board_).state;
  EXPECT_TRUE(said == PrintState::notChecked || said == PrintState::looking);
  EXPECT_TRUE(printedFacts(board_, {PartId{1}, PartId{2}}).empty())
      << "old figures are not the pair's";
  waitForPrint();
  EXPECT_NE(board_.known(), before);
  EXPECT_EQ(board_.known()->scene, session_.scene());
}

TEST_F(PrintBoardTest, WhatIsUndoneBeforeItIsCheckedAnewHolds) {
  openPress();
  waitForPrint();
  const PrintKnownPtr before = board_.known();
  edit([](AssemblyDocument& document) { document.requiredGap = 0.25; });
  session_.document().undoStack().undo();
  ASSERT_TRUE(waitUntilQuiet(session_));
  waitForPrint();
  EXPECT_EQ(board_.known(), before);
}

TEST_F(PrintBoardTest, AnotherDocumentDropsWhatWasKnown) {
  openPress();
  waitForPrint();
  const Bench box = Bench::hatchBox();
  ASSERT_TRUE(session_.open(box.file()).empty());
  EXPECT_EQ(board_.known(), nullptr);
  ASSERT_TRUE(waitUntilQuiet(session_));
  waitForPrint();
  ASSERT_NE(board_.known(), nullptr);
  EXPECT_EQ(board_.known()->scene, session_.scene());
}

TEST_F(PrintBoardTest, AStoppedCheckIsNotCheckedAsPrinted) {
  ASSERT_TRUE(session_.open(press_.file()).empty());
  session_.stopCheck();
  ASSERT_TRUE(waitUntil([&] { return session_.scene() != nullptr; }));
  session_.stopCheck();
  letTimePass();
  if (session_.isProven()) GTEST_SKIP() << "it was faster than the stop";
  EXPECT_EQ(said(), "as printed: not checked");
  EXPECT_EQ(board_.state(), PrintBoard::State::empty);
}

TEST_F(PrintBoardTest, TheHeadlineIsThatOfTheReport) {
  openPress();
  waitForPrint();
  EXPECT_EQ(said(), printHeadline(board_.known()->result));
  const PrintStanding clean{PrintState::known, 0, 0}, hinted{PrintState::known, 0, 1};
  PrintResult result;
  EXPECT_EQ(asPrintedWords(clean).toStdString(), printHeadline(result));
  result.findings.emplace_back().grade = PrintGrade::hint;
  EXPECT_EQ(asPrintedWords(hinted).toStdString(), printHeadline(result));
}

TEST_F(PrintBoardTest, AStoppedLookIsNotCheckedUntilItIsAskedAgain) {
  openPress();
  ASSERT_TRUE(waitUntil([&] { return board_.state() == PrintBoard::State::looking; }));
  board_.stop();
  EXPECT_EQ(board_.state(), PrintBoard::State::stopped);
  EXPECT_EQ(said(), "as printed: not checked");
  letTimePass();
  EXPECT_EQ(board_.known(), nullptr) << "what was under way is given up";
  board_.lookAgain();
  waitForPrint();
  EXPECT_EQ(board_.state(), PrintBoard::State::done);
  EXPECT_EQ(said(), printHeadline(board_.known()->result));
}

TEST(PrintBoardTables, OnesThatCannotBeReadAreToldAndNothingIsJudgedByOthers) {
  const Bench press = Bench::press();
  Session session{testReader()};
  PrintBoard board(session, []() -> Outcome<PrintTables> {
    return Problem{"print.json, line 3", "is no JSON", ""};
  });
  ASSERT_TRUE(session.open(press.file()).empty());
  ASSERT_TRUE(waitUntil([&] { return board.state() == PrintBoard::State::failed; }));
  EXPECT_EQ(board.known(), nullptr);
  EXPECT_EQ(board.failure().toStdString(),
            "Your printers and materials could not be read: print.json, line 3: is no JSON");
  EXPECT_EQ(asPrintedWords(printStanding(board)).toStdString(),
            "as printed: could not be checked");
  EXPECT_TRUE(printStateWords(board).contains(board.failure()));
}

TEST_F(PrintBoardTest, OtherTablesAreAskedWhenTold) {
  double growthMm = 0;
  Session session{testReader()};
  PrintBoard board(session, [&] { return tablesWithGrowth(growthMm)(); });
  ASSERT_TRUE(session.open(press_.file()).empty());
  const auto closed = [&] {
    const PrintFindings& found = board.known()->result.findings;
    return std::any_of(found.begin(), found.end(), [](const PrintFinding& finding) {
      return finding.word == PrintWord::closesAsPrinted;
    });
  };
  ASSERT_TRUE(waitUntil([&] { return board.state() == PrintBoard::State::done; }));
  EXPECT_FALSE(closed());
  growthMm = 0.15;
  board.lookAgain();
  ASSERT_TRUE(waitUntil([&] { return !board.isOld(); }));
  EXPECT_TRUE(closed());
}

TEST_F(PrintBoardTest, NothingFoundIsSaidOnlyOfTheAssemblyAsItIs) {
  QObject::connect(&board_, &PrintBoard::changed, [&] {
    const PrintState state = printStanding(board_).state;
    if (state == PrintState::known) {
      EXPECT_TRUE(session_.isProven());
      EXPECT_EQ(board_.known()->scene->document, session_.scene()->document);
    }
  });
  openPress();
  waitForPrint();
  for (const double gapMm : {0.2, 0.25, 0.3})
    edit([&](AssemblyDocument& document) { document.requiredGap = gapMm; });
  ASSERT_TRUE(waitUntilQuiet(session_));
  waitForPrint();
}

}  // namespace
}  // namespace swingroom
