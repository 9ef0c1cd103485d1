// Other programs save parts while the window is open: what it tells, on itself and on the desktop,
// and the history of checks. Real saves, mouse and keys; the desktop's note service is a fake one
// on a bus of the test's own.
#include <QPushButton>
#include <QTest>

#include "app/window/notices/news_line.h"
#include "tests/app/support/assemblies.h"
#include "tests/app/window/fake_desktop.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class SavesWindow : public OpenWindow {
 protected:
  void openOld() {
    for (const char* name : {"box.stl", "lid.stl", "bolt.stl"}) {
      const auto hourAgo = std::filesystem::file_time_type::clock::now() - std::chrono::hours(1);
      std::filesystem::last_write_time(folder_.path() / name, hourAgo);
    }
    open();
  }
  NewsCard& card() { return window_->saveNews().card(); }
  QListView& checks() { return window_->history().checks(); }
  QListView& turns() { return window_->history().turns(); }
  /// 7 mm down: into the box.
  void saveLid(double downMm) { moveStl(folder_.path() / "lid.stl", {0, 0, -downMm}); }
  bool cardSays(const char* text) {
    return soon([&] { return card().isVisible() && card().text().contains(QLatin1String(text)); });
  }
  void clickRow(QListView& list, int row) {
    const QRect place = list.visualRect(list.model()->index(row, 0));
    hand_.click(*list.viewport(), QRectF(place).center());
  }
  /// Another window of this program comes to the front.
  std::unique_ptr<QWidget> anotherInFront() {
    auto other = std::make_unique<QWidget>();
    other->resize(200, 100);
    other->move(1300, 850);
    other->show();
    other->activateWindow();
    EXPECT_TRUE(soon([&] { return !window_->isActiveWindow(); }));
    return other;
  }
};

TEST_F(SavesWindow, ASaveIsToldOnACardAndAClickStandsThere) {
  openOld();
  EXPECT_FALSE(card().isVisible());
  saveLid(7);
  ASSERT_TRUE(cardSays("lid saved"));
  EXPECT_TRUE(card().text().contains(QStringLiteral(" into ")));
  EXPECT_EQ(verdictOf("box", "lid"), Verdict::clash);
  const auto lines = card().findChildren<NewsLine*>();
  ASSERT_FALSE(lines.isEmpty());
  QTest::qWait(200);
  hand_.click(*lines[0], QRectF(lines[0]->rect()).center());
  ASSERT_TRUE(soon([&] { return session().choice().pair().has_value(); }));
  EXPECT_TRUE(session().choice().isChosen(part("lid")));
  const auto index = session().board().pairIndex(session().choice().pair()->first,
                                                 session().choice().pair()->second);
  EXPECT_EQ(instant(), *session().board().report().results[0].pairs[*index].gap.instant);
}

/// Tells when something of it was painted.
class PaintSpy : public QObject {
 public:
  bool painted = false;

 protected:
  bool eventFilter(QObject*, QEvent* event) override {
    painted = painted || event->type() == QEvent::Paint;
    return false;
  }
};

TEST_F(SavesWindow, ASaveThatTurnsTheSameAsTheLastIsSeenToHaveBeenTaken) {
  openOld();
  const std::string same = bytesOf(folder_.path() / "lid.stl");
  QStringList said;
  PaintSpy spy;
  for (int i = 0; i < 3; ++i) {
    bool told = false;
    QObject context;
    QObject::connect(&window_->saveNews(), &SaveNews::told, &context, [&] {
      told = true;
      spy.painted = false;
    });
    writeBytes(folder_.path() / "lid.stl", same);
    ASSERT_TRUE(soon([&] { return told; })) << i;
    EXPECT_TRUE(soon([&] { return spy.painted || i == 0; })) << i;
    card().installEventFilter(&spy);
    EXPECT_TRUE(card().text().contains(QStringLiteral("no gap has changed")));
    said += card().text();
    QTest::qWait(1100);  // It tells the second.
  }
  EXPECT_NE(said[0], said[1]);
  EXPECT_NE(said[1], said[2]);
}

TEST_F(SavesWindow, TheCardIsClosedByHandAndTheNextSaveOpensItAgain) {
  openOld();
  saveLid(7);
  ASSERT_TRUE(cardSays("lid saved"));
  QTest::qWait(200);
  for (QPushButton* button : card().findChildren<QPushButton*>()) {
    if (button->text() == QStringLiteral("Close")) {
      hand_.click(*button, QRectF(button->rect()).center());
    }
  }
  ASSERT_TRUE(soon([&] { return !card().isVisible(); }));
  saveLid(-7);
  ASSERT_TRUE(cardSays("solved"));
}

TEST_F(SavesWindow, PlaceChoiceAndViewStayAsTheyWere) {
  openOld();
  session().stand().moveTo(0.37);
  session().choice().choosePart(part("bolt"));
  const ViewCamera before = window_->view()->camera();
  saveLid(0.1);
  ASSERT_TRUE(cardSays("lid saved"));
  EXPECT_EQ(instant(), 0.37);
  EXPECT_TRUE(session().choice().isChosen(part("bolt")));
  EXPECT_EQ(window_->view()->camera(), before);
}

TEST_F(SavesWindow, AHalfWrittenMeshIsWaitedForAndThePartStaysInSight) {
  openOld();
  const auto lid = folder_.path() / "lid.stl";
  const std::string good = bytesOf(lid);
  writeBytes(lid, good.substr(0, good.size() / 2));
  ASSERT_TRUE(soon([&] { return !session().lateFiles().empty(); }));
  EXPECT_FALSE(window_->problems().isVisible());
  EXPECT_NE(session().scene()->geometry[part("lid").index], nullptr);
  EXPECT_FALSE(session().isProven());
  writeBytes(lid, good);
  ASSERT_TRUE(soon([&] { return session().isProven(); }));
  EXPECT_FALSE(window_->problems().isVisible());
}

TEST_F(SavesWindow, TheDesktopIsToldWhileTheWindowIsNotInFront) {
  PrivateBus bus;
  ASSERT_TRUE(bus.works()) << "is dbus-daemon installed?";
  FakeDesktop desktop(bus.address());
  openOld();
  saveLid(7);
  ASSERT_TRUE(cardSays("lid saved"));
  QTest::qWait(300);
  EXPECT_TRUE(desktop.notes.empty()) << "the window is in front";
  const auto other = anotherInFront();
  saveLid(-7);
  ASSERT_TRUE(soon([&] { return desktop.notes.size() == 1; }));
  EXPECT_EQ(desktop.notes[0].program, QStringLiteral("Swingroom"));
  EXPECT_TRUE(desktop.notes[0].summary.contains(QStringLiteral("lid saved")));
  EXPECT_TRUE(desktop.notes[0].body.contains(QStringLiteral("was")));
  EXPECT_EQ(desktop.notes[0].actions.value(0), QStringLiteral("default"));
  saveLid(7);
  ASSERT_TRUE(soon([&] { return desktop.notes.size() == 2; }));
  EXPECT_EQ(desktop.notes[1].replaces, 1u) << "notes do not pile up";
  preferences_.setTellsDesktop(false);
  saveLid(-7);
  ASSERT_TRUE(cardSays("solved"));
  QTest::qWait(300);
  EXPECT_EQ(desktop.notes.size(), 2u);
  preferences_.setTellsDesktop(true);
  desktop.click(1);
  ASSERT_TRUE(soon([&] { return window_->isActiveWindow(); }));
  EXPECT_TRUE(soon([&] { return desktop.closed == std::vector<uint>{1}; }));
}

TEST_F(SavesWindow, NamesWithMarkupAreOnlyNames) {
  PrivateBus bus;
  ASSERT_TRUE(bus.works());
  FakeDesktop desktop(bus.address());
  DesktopNotice notice;
  notice.show(QStringLiteral("a"), QStringLiteral("<b> & c"), false);
  ASSERT_TRUE(soon([&] { return desktop.notes.size() == 1; }));
  EXPECT_EQ(desktop.notes[0].body, QStringLiteral("&lt;b&gt; &amp; c"));
}

TEST_F(SavesWindow, WithoutANoteServiceNothingHappens) {
  PrivateBus bus;  // Nobody offers notes on it.
  ASSERT_TRUE(bus.works());
  openOld();
  const auto other = anotherInFront();
  saveLid(7);
  ASSERT_TRUE(cardSays("lid saved"));
  qputenv("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nowhere/at/all");
  saveLid(-7);
  EXPECT_TRUE(cardSays("solved"));
}

TEST_F(SavesWindow, HistoryComparesNowWithTheCheckBeforeAndWithAnyOther) {
  openOld();
  saveLid(7);
  ASSERT_TRUE(cardSays("lid saved"));
  saveLid(-7);
  ASSERT_TRUE(cardSays("solved"));
  ASSERT_TRUE(soon([&] { return checks().model()->rowCount() == 3; }));
  hand_.key(QStringLiteral("ctrl+h"));
  ASSERT_TRUE(soon([&] { return window_->history().isVisible(); }));
  EXPECT_TRUE(window_->history().heading().startsWith(QStringLiteral("Now against")));
  ASSERT_GT(turns().model()->rowCount(), 0) << "the lid is out of the box again";
  QTest::qWait(200);
  clickRow(turns(), 0);
  ASSERT_TRUE(soon([&] { return session().choice().isChosen(part("lid")); }));
  EXPECT_EQ(window_->rightColumn().page(), RightColumn::history) << "it stays where one works";
  clickRow(checks(), 2);
  EXPECT_TRUE(soon([&] { return turns().model()->rowCount() == 0; }))
      << "as it was before both saves";
}

TEST_F(SavesWindow, HistoryIsThereAgainAfterTheProgramWasEnded) {
  openOld();
  saveLid(7);
  ASSERT_TRUE(cardSays("lid saved"));
  window_.reset();
  window_ = std::make_unique<MainWindow>(preferences_, true, std::make_shared<ResultStore>(),
                                         std::make_shared<CheckLog>(folder_.path() / "history"));
  window_->show();
  open();
  EXPECT_TRUE(soon([&] { return checks().model()->rowCount() == 2; }));
}

TEST_F(SavesWindow, WithoutTheLogNothingIsKept) {
  preferences_.setKeepsHistory(false);
  openOld();
  saveLid(7);
  ASSERT_TRUE(cardSays("lid saved"));
  QTest::qWait(300);
  preferences_.setKeepsHistory(true);
  EXPECT_FALSE(std::filesystem::exists(folder_.path() / "history"));
}

}  // namespace
}  // namespace swingroom
