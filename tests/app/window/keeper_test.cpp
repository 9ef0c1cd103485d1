// What the window does with work that was not saved, with files that others change, and with a
// second window on the same file: with real files, mouse and keys.
#include <QProcess>
#include <QPushButton>
#include <QStatusBar>
#include <QTemporaryDir>

#include "app/edits/pair_edits.h"
#include "app/window/samples.h"
#include "core/files/document/write_document.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class KeptWindow : public OpenWindow {
 protected:
  std::filesystem::path recovery() const { return folder_.path() / "recovery"; }

  void edit(double gapMm) {
    session().document().edit(
        QStringLiteral("Required gap of box and bolt"),
        edits::requiredGap(session().document().document(), "box", "bolt", gapMm));
  }
  /// Ends the window as a crash would: nobody is asked, nothing is tidied up.
  void crash() {
    window_->keeper().autosave().writeNow();
    window_.reset();
  }
  void startAgain() {
    window_ = std::make_unique<MainWindow>(preferences_);
    window_->resize(1280, 800);
    window_->show();
    window_->begin({});
    window_->activateWindow();
    ASSERT_TRUE(soon([&] { return window_->isActiveWindow(); }));
  }
  void clickIn(const NoticeBar& bar, const QString& answer) {
    QTest::qWait(50);
    for (QPushButton* button : bar.findChildren<QPushButton*>()) {
      if (button->isVisible() && button->text() == answer) {
        return hand_.click(*button, QRectF(button->rect()).center());
      }
    }
    FAIL() << "there is no " << answer.toStdString() << " in: " << bar.text().toStdString();
  }
  std::size_t copies() const {
    std::error_code none;
    std::size_t count = 0;
    for (std::filesystem::directory_iterator entry(recovery(), none), end; !none && entry != end;
         ++entry) {
      count += entry->path().extension() == ".recovery";
    }
    return count;
  }
};

TEST_F(KeptWindow, EditThatWasNotSavedIsOfferedAndTakenUpAgain) {
  open();
  edit(0.7);
  const AssemblyDocument edited = session().document().document();
  crash();
  EXPECT_EQ(bytes(), original_);
  startAgain();
  NoticeBar& bar = window_->keeper().recoveryBar();
  ASSERT_TRUE(bar.isVisible());
  EXPECT_TRUE(bar.text().contains(QStringLiteral("hatch_box.swing.json")));
  EXPECT_TRUE(bar.text().contains(QStringLiteral("“Required gap of box and bolt”")));
  clickIn(bar, QStringLiteral("Take it up again"));
  waitForCheck();
  EXPECT_FALSE(bar.isVisible());
  EXPECT_EQ(session().document().document(), edited);
  EXPECT_TRUE(window_->isWindowModified());
  EXPECT_EQ(bytes(), original_);
  EXPECT_EQ(copies(), 1u);
  // It is an edit of what is on disk.
  session().document().undoStack().undo();
  EXPECT_EQ(session().document().document(), documentOf(file_));
  session().document().undoStack().redo();
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(documentOf(file_), edited);
  EXPECT_EQ(copies(), 0u);
}

TEST_F(KeptWindow, WhatIsThrownAwayIsNotOfferedAgainAndWhatIsLeftForLaterIs) {
  open();
  edit(0.7);
  crash();
  startAgain();
  clickIn(window_->keeper().recoveryBar(), QStringLiteral("Look at it later"));
  EXPECT_FALSE(window_->keeper().recoveryBar().isVisible());
  startAgain();
  ASSERT_TRUE(window_->keeper().recoveryBar().isVisible());
  clickIn(window_->keeper().recoveryBar(), QStringLiteral("Throw it away"));
  EXPECT_EQ(copies(), 0u);
  startAgain();
  EXPECT_FALSE(window_->keeper().recoveryBar().isVisible());
  EXPECT_EQ(bytes(), original_);
}

TEST_F(KeptWindow, OpeningTheFileOffersItsWorkAndAnEndThatWasAnsweredLeavesNothing) {
  open();
  edit(0.7);
  crash();
  window_ = std::make_unique<MainWindow>(preferences_);
  window_->show();
  open();
  EXPECT_TRUE(window_->keeper().recoveryBar().isVisible());
  clickIn(window_->keeper().recoveryBar(), QStringLiteral("Take it up again"));
  waitForCheck();
  session().document().undoStack().undo();
  EXPECT_FALSE(window_->isWindowModified());
  window_->close();
  EXPECT_EQ(copies(), 0u);
}

TEST_F(KeptWindow, NewDocumentThatWasNeverSavedIsOfferedToo) {
  open();
  session().start(documentOf(file_), folder_.path() / "new.swing.json");
  crash();
  startAgain();
  ASSERT_TRUE(window_->keeper().recoveryBar().isVisible());
  clickIn(window_->keeper().recoveryBar(), QStringLiteral("Take it up again"));
  waitForCheck();
  EXPECT_EQ(session().document().file(), folder_.path() / "new.swing.json");
  EXPECT_TRUE(window_->isWindowModified());
}

TEST_F(KeptWindow, FileThatIsChangedOutsideIsReadAgainAndToldInPassing) {
  open();
  session().stand().moveTo(0.4);
  saveDocument(edits::requiredGap(documentOf(file_), "box", "bolt", 0.7), file_);
  ASSERT_TRUE(soon([&] { return !window_->statusBar()->currentMessage().isEmpty(); }));
  waitForCheck();
  EXPECT_EQ(verdictOf("box", "bolt"), Verdict::tight);  // 0.6 apart.
  EXPECT_EQ(instant(), 0.4);
  EXPECT_FALSE(window_->keeper().outsideBar().isVisible());
  EXPECT_FALSE(window_->isWindowModified());
}

TEST_F(KeptWindow, ChangedHereAndOutsideIsAskedAndTheirsCanBeUndone) {
  open();
  edit(0.5);
  const AssemblyDocument mine = session().document().document();
  saveDocument(edits::requiredGap(documentOf(file_), "box", "bolt", 0.7), file_);
  NoticeBar& bar = window_->keeper().outsideBar();
  ASSERT_TRUE(soon([&] { return bar.isVisible(); }));
  EXPECT_EQ(session().document().document(), mine);
  clickIn(bar, QStringLiteral("Take theirs"));
  EXPECT_EQ(session().document().document(), documentOf(file_));
  EXPECT_FALSE(bar.isVisible());
  hand_.key(QStringLiteral("ctrl+z"));
  EXPECT_EQ(session().document().document(), mine);
  EXPECT_TRUE(window_->isWindowModified());
}

TEST_F(KeptWindow, SecondWindowOnTheSameFileIsTold) {
  open();
  EXPECT_FALSE(window_->keeper().noteBar().isVisible());
  MainWindow second(preferences_, false);
  second.show();
  second.open(QString::fromStdString(file_.string()));
  EXPECT_TRUE(second.keeper().noteBar().isVisible());
  EXPECT_TRUE(second.keeper().noteBar().text().contains(QStringLiteral("another window")));
}

TEST_F(KeptWindow, WriteProtectedFileIsToldAndTheEditIsKept) {
  open();
  edit(0.7);
  std::filesystem::permissions(file_, std::filesystem::perms::owner_read);
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_TRUE(window_->problems().isVisible());
  EXPECT_TRUE(window_->problems().text().contains(QStringLiteral("write-protected")));
  EXPECT_TRUE(window_->isWindowModified());
  EXPECT_EQ(bytes(), original_);
}

TEST_F(KeptWindow, ProgramThatIsKilledOffersItsEditAtTheNextStart) {
  // The program itself, killed; this window is the next start.
  QProcess program;
  QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
  const QTemporaryDir home;
  environment.insert(QStringLiteral("XDG_CONFIG_HOME"), home.path());
  environment.insert(QStringLiteral("XDG_DATA_HOME"), home.path());
  environment.insert(QStringLiteral("XDG_CACHE_HOME"), home.path());
  program.setProcessEnvironment(environment);
  window_.reset();
  program.start(QCoreApplication::applicationDirPath() + QStringLiteral("/swingroom"),
                {QString::fromStdString(file_.string())});
  ASSERT_TRUE(program.waitForStarted());
  const std::filesystem::path kept =
      std::filesystem::path(home.path().toStdString()) / "swingroom" / "recovery";
  const auto isKept = [&] {
    std::error_code none;
    for (std::filesystem::directory_iterator entry(kept, none), end; !none && entry != end;
         ++entry) {
      if (entry->path().extension() == ".recovery") return true;
    }
    return false;
  };
  // Its edit by its own menu: the pair is allowed, because no file says otherwise yet.
  QString window;
  ASSERT_TRUE(soon([&] {
    QProcess search;
    search.start(QStringLiteral("xdotool"),
                 {QStringLiteral("search"), QStringLiteral("--onlyvisible"),
                  QStringLiteral("--name"), QStringLiteral("hatch_box.swing.json")});
    search.waitForFinished();
    window = QString::fromUtf8(search.readAllStandardOutput()).section(QLatin1Char('\n'), 0, 0);
    return !window.isEmpty();
  }));
  QProcess::execute(QStringLiteral("xdotool"), {QStringLiteral("windowfocus"), window});
  QTest::qWait(2500);  // Three pairs are checked.
  // Down chooses the first pair in the ribbon, g goes to its required gap.
  for (const char* key : {"Down", "g"}) hand_.key(QString::fromLatin1(key));
  hand_.type(QStringLiteral("0.55"));
  hand_.key(QStringLiteral("Return"));
  EXPECT_TRUE(soon(isKept));
  program.kill();
  ASSERT_TRUE(program.waitForFinished(20'000));
  EXPECT_EQ(bytes(), original_);
  preferences_.setRecoveryFolder(QString::fromStdString(kept.string()));
  startAgain();
  ASSERT_TRUE(window_->keeper().recoveryBar().isVisible());
  clickIn(window_->keeper().recoveryBar(), QStringLiteral("Take it up again"));
  waitForCheck();
  ASSERT_EQ(session().document().document().pairs.size(), documentOf(file_).pairs.size() + 1);
  EXPECT_EQ(session().document().document().pairs.back().requiredGap, 0.55);
}

TEST_F(KeptWindow, QuitWhileAReportIsWrittenDoesNotWait) {
  open();
  // Only that it ends, soon or not, without a crash and without a half of a report.
  const auto report = folder_.path() / "report";
  session().goToWorst(part("box"), part("bolt"));
  window_->writeReport(report);
  window_->close();
  window_.reset();
  for (const char* name : {"report.json", "pairs.csv", "report.html"}) {
    if (std::filesystem::exists(report / name)) {
      EXPECT_GT(std::filesystem::file_size(report / name), 0u);
    }
  }
}

TEST_F(KeptWindow, SamplesAreThereAndKnownAsSuch) {
  const auto all = samples();
  ASSERT_FALSE(all.empty());
  for (const Sample& sample : all) {
    EXPECT_TRUE(isSample(sample.file)) << sample.file.toStdString();
    EXPECT_FALSE(sample.title.isEmpty());
  }
  EXPECT_FALSE(isSample(QString::fromStdString(file_.string())));
}

}  // namespace
}  // namespace swingroom
