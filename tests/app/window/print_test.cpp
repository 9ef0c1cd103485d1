// The print checks in the whole window, by real mouse and keys, on the press of
// tests/app/support/assemblies.h: the rail stays 0.2 mm above the sled, and this user's own printer
// grows every face by 0.15 mm.
#include <QCheckBox>
#include <QLabel>

#include "app/panels/print/print_panel.h"
#include "app/panels/print/print_table_view.h"
#include "app/panels/rows_view.h"
#include "core/measure/user_tables.h"
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

class PrintWindow : public OpenWindow {
 protected:
  void openPress() {
    window_->open(QString::fromStdString(press_.file().string()));
    waitForCheck();
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return board().state() == PrintBoard::State::done && !board().isOld(); }, 120'000));
  }
  void showPage() {
    PrintTally& tally = window_->header().printTally();
    hand_.click(tally, QRectF(tally.rect()).center());
    ASSERT_TRUE(soon([&] { return window_->rightColumn().page() == RightColumn::print; }));
    ASSERT_TRUE(soon([&] { return panel().isVisible(); }));
  }
  /// The row of the gap that closes.
  int closingRow() {
    PrintModel& model = panel().model();
    for (int row = 0; row < model.rowCount(); ++row) {
      if (model.row(row).kind == PrintWord::closesAsPrinted) return row;
    }
    return -1;
  }
  void clickRow(int row) {
    const QRect place = panel().list().placeOf(row);
    hand_.click(*panel().list().viewport(), QPointF(place.center().x(), place.bottom() - 20));
  }
  PrintBoard& board() { return window_->prints(); }
  PrintPanel& panel() { return window_->printPanel(); }

  OwnPrinters printers_;
  Bench press_ = Bench::press();
};

TEST_F(PrintWindow, TheHeadlineSaysItAndOpensThePage) {
  openPress();
  const auto findings = board().known()->result.count(PrintGrade::finding);
  ASSERT_GT(findings, 0u);
  const QString name = window_->header().printTally().accessibleName();
  EXPECT_TRUE(name.startsWith(QStringLiteral("as printed: %1 finding").arg(findings)))
      << name.toStdString();
  showPage();
  EXPECT_TRUE(panel().headline().text().contains(QString::number(findings)));
  EXPECT_EQ(panel().processButton().text(),
            QString::fromStdString(builtInProcesses().front().name));
}

TEST_F(PrintWindow, AClickOnAFindingStandsWhereItIsAndTellsAllOfIt) {
  openPress();
  showPage();
  const int row = closingRow();
  ASSERT_GE(row, 0);
  clickRow(row);
  ASSERT_TRUE(soon([&] { return session().choice().pair().has_value(); }));
  EXPECT_TRUE(session().choice().isChosen(part("sled")));
  EXPECT_TRUE(session().choice().isChosen(part("rail")));
  ASSERT_TRUE(soon([&] { return panel().openRow() == row; }));
  EXPECT_GT(panel().list().placeOf(row).height(), panel().list().placeOf(row == 0 ? 1 : 0).height())
      << "the card shows the whole sentence";
}

TEST_F(PrintWindow, KeysGoThroughTheFindings) {
  openPress();
  showPage();
  ASSERT_GT(panel().model().rowCount(), 1);
  clickRow(0);
  ASSERT_TRUE(soon([&] { return panel().openRow() == 0; }));
  hand_.key(QStringLiteral("Down"));
  ASSERT_TRUE(soon([&] { return panel().openRow() == 1; }));
  hand_.key(QStringLiteral("Up"));
  ASSERT_TRUE(soon([&] { return panel().openRow() == 0; }));
  session().choice().clear();
  EXPECT_FALSE(panel().openRow()) << "what the view shows is something else now";
}

TEST_F(PrintWindow, WhatWasMeasuredOpensByAClick) {
  openPress();
  showPage();
  PrintTableView* walls = panel().tables().table(PrintSection::walls, QStringLiteral("Walls"));
  ASSERT_NE(walls, nullptr);
  panel().ensureSeen(*walls);
  QTest::qWait(100);
  hand_.click(walls->heading(), QRectF(walls->heading().rect()).center());
  ASSERT_TRUE(soon([&] { return walls->rows().isVisible(); }));
  panel().ensureSeen(walls->rows());
  QTest::qWait(100);
  hand_.click(*walls->rows().viewport(), QPointF(60, 12));
  ASSERT_TRUE(soon([&] { return session().choice().parts().size() == 1; }));
  EXPECT_TRUE(session().choice().isChosen(walls->table().rows.front().parts.front()));
}

TEST_F(PrintWindow, WallsAreShownInColoursWhileWanted) {
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

TEST_F(PrintWindow, AnEditIsToldAsNotCheckedUntilItIs) {
  openPress();
  AssemblyDocument document = session().document().document();
  document.requiredGap = 0.25;
  session().document().edit(QStringLiteral("test"), document);
  QTest::qWait(0);
  const QString name = window_->header().printTally().accessibleName();
  EXPECT_FALSE(name.contains(QStringLiteral("finding"))) << name.toStdString();
  ASSERT_TRUE(soon([&] { return !board().isOld(); }));
  EXPECT_TRUE(window_->header().printTally().accessibleName().contains(QStringLiteral("finding")));
}

}  // namespace
}  // namespace swingroom
