// The print checks in the whole window, by real mouse and keys, on the press of
// tests/app/support/assemblies.h: the rail stays 0.2 mm above the sled, and this user's own printer
// grows every face by 0.15 mm.
#include <QClipboard>
#include <QGuiApplication>
#include <QLabel>
#include <QLineEdit>

#include "app/panels/print/print_panel.h"
#include "app/panels/print/print_table_view.h"
#include "app/panels/rows_view.h"
#include "app/window/forms/print/loads_form.h"
#include "app/window/forms/print/process_form.h"
#include "app/window/forms/print/snap_form.h"
#include "app/window/forms/print/test_piece_form.h"
#include "app/window/print/print_forms.h"
#include "core/measure/user_tables.h"
#include "core/report/print/print_report.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

/// A user's folder of settings for as long as it lives.
class OwnPrinters {
 public:
  OwnPrinters() : before_(qgetenv("XDG_CONFIG_HOME")) {
    qputenv("XDG_CONFIG_HOME", QByteArray::fromStdString(folder_.path().string()));
    std::filesystem::create_directories(userTablesFile()->parent_path());
    PrintTables tables = builtInTables();
    PrintProcess& first = tables.processes.front();
    first.growthOutsideMm = first.growthInsideMm = {0.15, FigureSource::measured, ""};
    first.scatterMm = {0, FigureSource::measured, ""};
    writeBytes(*userTablesFile(), toJson(tables));
  }
  ~OwnPrinters() {
    before_.isNull() ? qunsetenv("XDG_CONFIG_HOME") : qputenv("XDG_CONFIG_HOME", before_);
  }

 private:
  TempFolder folder_;
  QByteArray before_;
};

/// A page that has grown is laid out anew before it can scroll as far as that.
constexpr int kLaidOutMs = 300;

class PrintPageTest : public OpenWindow {
 protected:
  void openPress() {
    window_->open(QString::fromStdString(press_.file().string()));
    waitForCheck();
    window_->activateWindow();
    ASSERT_TRUE(soon([&] { return window_->isActiveWindow(); }));
    waitForPrint();
  }
  void waitForPrint() {
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return board().state() == PrintBoard::State::done && !board().isOld(); }, 300'000));
  }
  void showPage() {
    hand_.key(QStringLiteral("F6"));
    ASSERT_TRUE(soon([&] { return window_->rightColumn().page() == RightColumn::print; }));
    ASSERT_TRUE(soon([&] { return panel().isVisible(); }));
  }
  /// The row of the gap that closes.
  int closingRow() {
    PrintModel& model = panel().model();
    for (int row = 0; row < model.rowCount(); ++row) {
      if (!model.isGroup(row) && model.row(row).kind == PrintWord::closesAsPrinted) return row;
    }
    return -1;
  }
  int firstGroup() {
    PrintModel& model = panel().model();
    for (int row = 0; row < model.rowCount(); ++row)
      if (model.isGroup(row)) return row;
    return -1;
  }
  /// Scrolls the page to a place of a list and clicks there, near its lower end: over a row may
  /// be a heading.
  void clickIn(QAbstractItemView& list, int row) {
    QTest::qWait(kLaidOutMs);
    const QRect place = list.visualRect(list.model()->index(row, 0));
    QWidget marker(list.viewport());
    marker.setGeometry(place);
    panel().ensureSeen(marker);
    QTest::qWait(kLaidOutMs);
    hand_.click(*list.viewport(), QPointF(place.center().x(), place.bottom() - 12));
  }
  void clickRow(int row) { clickIn(panel().list(), row); }
  /// The page's own words of a table, opened by a click.
  PrintTableView* openTable(PrintSection section, const char* name) {
    PrintTableView* table = panel().tables().table(section, QString::fromLatin1(name));
    if (!table) return nullptr;
    panel().ensureSeen(*table);
    QTest::qWait(100);
    hand_.click(table->heading(), QRectF(table->heading().rect()).center());
    if (!soon([&] { return table->rows().isVisible(); })) return nullptr;
    return table;
  }
  PrintBoard& board() { return window_->prints(); }
  PrintPanel& panel() { return window_->printPanel(); }

  OwnPrinters printers_;
  Bench press_ = Bench::press();
};

/// What the check finds when it is called directly, without a window, on the document as it is.
PrintResult askedDirectly(const Scene& scene, const std::vector<SequenceResult>& results) {
  const auto tables = userTables();
  const PrintAsked asked = printAsked(scene.document, *tables, "");
  WorkMonitor monitor;
  return checkPrint(subjectOf(scene, asked, &results), monitor);
}

TEST_F(PrintPageTest, SaysWhatTheCheckFindsWhenItIsCalledDirectly) {
  openPress();
  const PrintResult direct =
      askedDirectly(*session().scene(), session().board().report().results);
  ASSERT_GT(direct.count(PrintGrade::finding), 0u);
  PrintModel& model = panel().model();
  EXPECT_EQ(model.count(PrintGrade::finding), direct.count(PrintGrade::finding));
  EXPECT_EQ(model.count(PrintGrade::hint), direct.count(PrintGrade::hint));
  std::size_t hints = 0;
  for (int row = 0; row < model.rowCount(); ++row)
    hints += model.index(row, 0).data(PrintModel::CountRole).toUInt();
  EXPECT_EQ(hints, direct.count(PrintGrade::hint)) << "folded hints are counted on their lines";
  EXPECT_EQ(window_->header().printTally().accessibleName().toStdString(), printHeadline(direct));
}

TEST_F(PrintPageTest, TheHeadlineOpensThePage) {
  openPress();
  PrintTally& tally = window_->header().printTally();
  hand_.click(tally, QRectF(tally.rect()).center());
  ASSERT_TRUE(soon([&] { return window_->rightColumn().page() == RightColumn::print; }));
  EXPECT_EQ(panel().headline().text().toLower().toStdString(),
            printOutcome(board().known()->result));
  EXPECT_EQ(panel().processButton().text(),
            QString::fromStdString(builtInProcesses().front().name));
}

TEST_F(PrintPageTest, AClickOnAFindingStandsWhereItIsAndTellsAllOfIt) {
  openPress();
  showPage();
  const int row = closingRow();
  ASSERT_GE(row, 0);
  const int folded = panel().list().placeOf(row).height();
  clickRow(row);
  ASSERT_TRUE(soon([&] { return session().choice().pair().has_value(); }));
  EXPECT_TRUE(session().choice().isChosen(part("sled")));
  EXPECT_TRUE(session().choice().isChosen(part("rail")));
  ASSERT_TRUE(soon([&] { return panel().openRow() == row; }));
  EXPECT_EQ(window_->rightColumn().page(), RightColumn::print) << "who reads here stays here";
  EXPECT_TRUE(soon([&] { return panel().list().placeOf(row).height() > folded; }))
      << "the card shows the whole sentence";
}

TEST_F(PrintPageTest, AClickOnALineOfHintsOpensItAndTheOpenRowStays) {
  openPress();
  showPage();
  clickRow(0);
  ASSERT_TRUE(soon([&] { return panel().openRow() == 0; }));
  const int group = firstGroup();
  ASSERT_GT(group, 0);
  const int before = panel().model().rowCount();
  const int behind = panel().model().index(group, 0).data(PrintModel::CountRole).toInt();
  clickRow(group);
  ASSERT_TRUE(soon([&] { return panel().model().rowCount() == before + behind; }));
  EXPECT_EQ(panel().openRow(), 0);
  hand_.key(QStringLiteral("Left"));
  EXPECT_TRUE(soon([&] { return panel().model().rowCount() == before; }));
}

TEST_F(PrintPageTest, KeysGoThroughTheFindings) {
  openPress();
  showPage();
  ASSERT_GT(panel().model().rowCount(), 1);
  clickRow(0);
  ASSERT_TRUE(soon([&] { return panel().openRow() == 0; }));
  hand_.key(QStringLiteral("Down"));
  hand_.key(QStringLiteral("Up"));
  ASSERT_TRUE(soon([&] { return panel().openRow() == 0; }));
  session().choice().clear();
  EXPECT_FALSE(panel().openRow()) << "what the view shows is something else now";
}

TEST_F(PrintPageTest, SearchedByANameOnlyThatIsListed) {
  openPress();
  showPage();
  hand_.click(panel().search(), QRectF(panel().search().rect()).center());
  hand_.type(QStringLiteral("rail"));
  ASSERT_TRUE(soon([&] { return panel().model().search() == QStringLiteral("rail"); }));
  PrintModel& model = panel().model();
  ASSERT_GT(model.rowCount(), 0);
  for (int row = 0; row < model.rowCount(); ++row) {
    if (!model.isGroup(row)) EXPECT_TRUE(model.row(row).about.contains(QStringLiteral("rail")));
  }
}

TEST_F(PrintPageTest, WhatWasMeasuredOpensByAClick) {
  openPress();
  showPage();
  PrintTableView* parts = openTable(PrintSection::set, "Parts");
  ASSERT_NE(parts, nullptr);
  clickIn(parts->rows(), 0);
  ASSERT_TRUE(soon([&] { return session().choice().parts().size() == 1; }));
  EXPECT_TRUE(session().choice().isChosen(parts->table().rows.front().parts.front()));
}

TEST_F(PrintPageTest, AStandIsShownInItsMode) {
  openPress();
  showPage();
  PrintTableView* stands = openTable(PrintSection::stand, "Stands");
  ASSERT_NE(stands, nullptr);
  const auto& modes = session().scene()->loaded.modes;
  ASSERT_EQ(stands->table().rows.size(), modes.size());
  const int last = static_cast<int>(modes.size()) - 1;
  clickIn(stands->rows(), last);
  EXPECT_TRUE(soon([&] { return session().stand().standing() == modes.back().configuration; }));
  EXPECT_TRUE(stands->told().text().contains(QStringLiteral("test real prints")));
}

TEST_F(PrintPageTest, WallsAreShownInColoursWhileWanted) {
  openPress();
  showPage();
  session().choice().choosePart(part("sled"));
  QPushButton& button = panel().wallsButton();
  ASSERT_TRUE(soon([&] { return button.isEnabled(); }));
  panel().ensureSeen(button);
  QTest::qWait(100);
  hand_.click(button, QRectF(button.rect()).center());
  ASSERT_TRUE(soon([&] { return !window_->view()->paint().parts.empty(); }));
  EXPECT_EQ(window_->view()->paint().parts.front().part, part("sled"));
  window_->rightColumn().showPage(RightColumn::findings);
  EXPECT_TRUE(soon([&] { return window_->view()->paint().parts.empty(); }));
}

TEST_F(PrintPageTest, AllOfItCanBeCopiedAsText) {
  openPress();
  const QString text = panel().text();
  EXPECT_TRUE(text.startsWith(
      QString::fromStdString(printHeadline(board().known()->result))));
  for (const PrintFinding& finding : board().known()->result.findings)
    EXPECT_TRUE(text.contains(QString::fromStdString(finding.sentence.substr(1))))
        << finding.sentence;
  for (const char* heading : {"Parts, ", "Stands, "})
    EXPECT_TRUE(text.contains(QLatin1String(heading))) << heading;
}

TEST_F(PrintPageTest, AnEditIsToldAsNotCheckedUntilItIs) {
  openPress();
  AssemblyDocument document = session().document().document();
  document.requiredGap = 0.25;
  session().document().edit(QStringLiteral("test"), document);
  QTest::qWait(0);
  const QString name = window_->header().printTally().accessibleName();
  EXPECT_FALSE(name.contains(QStringLiteral("finding"))) << name.toStdString();
  waitForPrint();
  EXPECT_TRUE(window_->header().printTally().accessibleName().contains(QStringLiteral("finding")));
}

TEST_F(PrintPageTest, TheWordsAtItsEndOpenTheForms) {
  openPress();
  showPage();
  const auto press = [&](const char* word) {
    for (QPushButton* button : panel().findChildren<QPushButton*>())
      if (button->text() == QString::fromUtf8(word)) button->click();
  };
  PrintForms& forms = window_->printForms();
  press("Process…");
  ASSERT_NE(forms.process(), nullptr);
  forms.process()->close();
  press("Test piece…");
  ASSERT_NE(forms.testPiece(), nullptr);
  forms.testPiece()->close();
  press("Snap tab…");
  ASSERT_NE(forms.snap(), nullptr);
  forms.snap()->close();
  press("Bed loads…");
  ASSERT_NE(forms.loads(), nullptr);
  forms.loads()->close();
}

TEST_F(PrintPageTest, OtherFiguresOfThePrinterAreCheckedAtOnce) {
  openPress();
  PrintTables tables = builtInTables();
  tables.processes.front().growthOutsideMm = tables.processes.front().growthInsideMm = {0, FigureSource::measured, ""};
  writeBytes(*userTablesFile(), toJson(tables));
  Q_EMIT window_->printForms().tablesChanged();
  EXPECT_TRUE(board().isOld());
  waitForPrint();
  EXPECT_EQ(closingRow(), -1) << "without growth the rail keeps its 0.2 mm";
}

TEST_F(PrintPageTest, AReportHasThePrintChecksToo) {
  openPress();
  window_->writeReport(press_.folder() / "report");
  ASSERT_TRUE(QTest::qWaitFor([&] { return std::filesystem::exists(press_.folder() / "report" / "report.json"); },
                              120'000));
  QTest::qWait(200);
  const std::string json = bytesOf(press_.folder() / "report" / "report.json");
  EXPECT_NE(json.find("\"print\""), std::string::npos);
  EXPECT_NE(json.find(wordFor(PrintWord::closesAsPrinted)), std::string::npos);
}

}  // namespace
}  // namespace swingroom
