// The whole window under an X server, by real mouse and keys.
#include <QApplication>
#include <QDragEnterEvent>
#include <QMimeData>
#include <QPushButton>
#include <QSettings>
#include <QStandardPaths>
#include <QStatusBar>
#include <QTemporaryDir>
#include <QUrl>

#include "app/panels/findings/near_list.h"
#include "app/panels/parts/travel_slider.h"
#include "app/panels/way/line_of_steps.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

TEST_F(OpenWindow, OpensAndProvesEveryPair) {
  open();
  EXPECT_EQ(session().board().counts()[static_cast<std::size_t>(Verdict::clear)], 3u);
  EXPECT_TRUE(window_->windowTitle().startsWith(QStringLiteral("hatch_box.swing.json")));
  EXPECT_TRUE(window_->view()->failure().isEmpty()) << window_->view()->failure().toStdString();
}

TEST_F(OpenWindow, DraggingOnTheLineScrubsAndTheViewFollows) {
  open();
  const WayRibbon& ribbon = window_->ribbon();
  const LineOfSteps& line = ribbon.line();
  const double y = line.height() / 2.0;
  const int before = window_->view()->framesDrawn();
  hand_.press(line, {ribbon.axis().xAt(0.1), y});
  hand_.moveTo(line, {ribbon.axis().xAt(0.2), y});
  hand_.moveTo(line, {ribbon.axis().xAt(0.3), y});
  hand_.release();
  // One pixel of the axis.
  EXPECT_NEAR(instant(), 0.3, 1.01 / ribbon.axis().width);
  EXPECT_EQ(ribbon.instant(), instant());
  EXPECT_GT(window_->view()->framesDrawn(), before);
}

TEST_F(OpenWindow, ArrowKeysGoByStepAndByHundredthFromAnywhere) {
  open();
  hand_.key(QStringLiteral("Right"));
  EXPECT_DOUBLE_EQ(instant(), 0.5);  // Two steps.
  hand_.key(QStringLiteral("shift+Right"));
  EXPECT_DOUBLE_EQ(instant(), 0.51);
  hand_.key(QStringLiteral("End"));
  EXPECT_DOUBLE_EQ(instant(), 1);
  hand_.key(QStringLiteral("Left"));
  EXPECT_DOUBLE_EQ(instant(), 0.5);
  hand_.key(QStringLiteral("Home"));
  EXPECT_DOUBLE_EQ(instant(), 0);
}

TEST_F(OpenWindow, SpaceRunsToTheEndAndStops) {
  open();
  session().stand().moveTo(0.9);
  hand_.key(QStringLiteral("space"));
  EXPECT_TRUE(soon([&] { return instant() == 1 && !session().stand().isRunning(); }));
}

TEST_F(OpenWindow, ChoosingAFindingStandsAtItsWorstPlaceWithItsPair) {
  open();
  // Box and bolt are 0.6 apart at the least (README of the sample): tight for 0.7.
  session().document().edit(QStringLiteral("required gap"), [&] {
    AssemblyDocument changed = session().document().document();
    DocumentPair rule;
    rule.parts = {"box", "bolt"};
    rule.requiredGap = 0.7;
    changed.pairs.push_back(rule);
    return changed;
  }());
  ASSERT_TRUE(soon([&] { return window_->findings().model().rowCount() == 1; }));
  QListView& list = window_->findings().list();
  hand_.click(*list.viewport(), list.visualRect(list.model()->index(0, 0)).center());
  ASSERT_TRUE(session().choice().pair().has_value());
  EXPECT_EQ(*session().choice().pair(), PartPair(part("box"), part("bolt")));
  EXPECT_TRUE(window_->findings().card().isVisible());
  const auto index = session().board().pairIndex(part("box"), part("bolt"));
  const PairResult& result = session().board().report().results[0].pairs[*index];
  EXPECT_EQ(result.verdict, Verdict::tight);
  EXPECT_EQ(instant(), *result.gap.instant);
  EXPECT_TRUE(window_->findings().card().story().figure.startsWith(QStringLiteral("0.60")));
}

TEST_F(OpenWindow, RequiredGapIsEditedUndoneAndSavedWithTheSameBytes) {
  open();
  session().choice().choosePair(part("box"), part("bolt"));
  QDoubleSpinBox& box = window_->findings().card().requiredGap();
  hand_.key(QStringLiteral("g"));  // The pair's required gap.
  ASSERT_TRUE(box.hasFocus());
  hand_.type(QStringLiteral("0.7"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return session().scene()->assembly().requiredGapMm(part("box"), part("bolt")) == 0.7; }));
  waitForCheck();
  EXPECT_EQ(verdictOf("box", "bolt"), Verdict::tight);
  EXPECT_TRUE(window_->isWindowModified());

  hand_.key(QStringLiteral("ctrl+z"));
  ASSERT_TRUE(soon([&] { return !window_->isWindowModified(); }));
  waitForCheck();
  EXPECT_EQ(verdictOf("box", "bolt"), Verdict::clear);
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), original_);

  hand_.key(QStringLiteral("ctrl+shift+z"));
  ASSERT_TRUE(soon([&] { return window_->isWindowModified(); }));
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_FALSE(window_->isWindowModified());
  EXPECT_NE(bytes().find("0.7"), std::string::npos);
  // Reopened, it is what was saved.
  window_->open(QString::fromStdString(file_.string()));
  waitForCheck();
  EXPECT_EQ(verdictOf("box", "bolt"), Verdict::tight);
}

TEST_F(OpenWindow, ClickInTheViewChoosesThePartUnderTheMouse) {
  open();
  Viewport& view = *window_->view();
  view.lookFrom(Viewport::LookFrom::top);
  QTest::qWait(200);
  // Somewhere on the box as the view says itself; what it says is tested in tests/app/viewport.
  std::optional<QPointF> place;
  for (int x = 40; x < view.width() && !place; x += 10) {
    for (int y = 60; y < view.height() && !place; y += 10) {
      const auto picked = view.pick(QPointF(x, y));
      if (picked && picked->part == part("lid")) place = QPointF(x, y);
    }
  }
  ASSERT_TRUE(place.has_value());
  hand_.click(view, *place);
  EXPECT_EQ(session().choice().part(), part("lid"));
  EXPECT_EQ(window_->joints().model().rowCount(), 1);  // Its hinge has a slider.
}

TEST_F(OpenWindow, SliderMovesTheJointAndTheNearestGapsFollow) {
  open();
  session().choice().choosePart(part("bolt"));
  QTest::qWait(100);
  TravelSlider* slider = window_->joints().slider(0);
  slider->setFocus();
  hand_.key(QStringLiteral("End"));
  ASSERT_TRUE(soon([&] { return session().stand().isByHand(); }));
  EXPECT_EQ(slider->value(), slider->maximum());
  EXPECT_TRUE(soon([&] { return !window_->joints().nearList().rows().empty(); }));
}

TEST_F(OpenWindow, FileThatIsNoAssemblyIsToldInWordsAndWhatWasOpenStays) {
  open();
  const auto bad = folder_.write("bad.swing.json", "{\"swingroom\": 1, \"parts\": 3}");
  window_->open(QString::fromStdString(bad.string()));
  EXPECT_TRUE(window_->problems().isVisible());
  EXPECT_TRUE(window_->problems().text().contains(QStringLiteral("parts")));
  EXPECT_EQ(session().document().file(), file_);
  EXPECT_TRUE(session().scene());
}

TEST_F(OpenWindow, MissingMeshIsToldAndTheWindowStaysAlive) {
  std::filesystem::remove(folder_.path() / "lid.stl");
  window_->open(QString::fromStdString(file_.string()));
  ASSERT_TRUE(soon([&] { return window_->problems().isVisible(); }));
  EXPECT_TRUE(window_->problems().text().contains(QStringLiteral("lid.stl")));
}

TEST_F(OpenWindow, TwoPartsChosenInTheTreeShowTheirGapAsItIsNow) {
  open();
  session().stand().moveTo(1);
  session().choice().choosePart(part("bolt"));
  session().choice().addPart(part("lid"));
  EXPECT_TRUE(window_->findings().card().isVisible());
  // Lid and bolt keep 0.4 all the way (README of the sample); STL is float32.
  std::optional<PairNow> now;
  QObject::connect(&session().liveGaps(), &LiveGaps::pairMeasured,
                   [&](const PairNow& measured) { now = measured; });
  session().stand().moveTo(0.99);
  ASSERT_TRUE(soon([&] { return now.has_value(); }));
  EXPECT_NEAR(now->gapMm.value(), 0.4, 1e-5);
}

TEST_F(OpenWindow, NotesAreToldWhenAskedFor) {
  open();
  // STL has no unit: that mm was taken is a note.
  auto* notes = window_->statusBar()->findChild<QPushButton*>();
  ASSERT_NE(notes, nullptr);
  hand_.click(*notes, QRectF(notes->rect()).center());
  EXPECT_TRUE(window_->problems().isVisible());
  EXPECT_TRUE(window_->problems().text().contains(QStringLiteral("mm is taken")));
}

TEST_F(OpenWindow, TypedGapIsSavedThoughReturnWasNotPressed) {
  open();
  session().choice().choosePair(part("box"), part("bolt"));
  hand_.key(QStringLiteral("g"));
  hand_.type(QStringLiteral("0.7"));
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_NE(bytes().find("0.7"), std::string::npos);
  EXPECT_FALSE(window_->isWindowModified());
}

TEST_F(OpenWindow, FileThatChangedOutsideIsReadWhenCheckedAgain) {
  open();
  std::string text = original_;
  const auto at = text.find("\"requiredGap\": 0.3");
  ASSERT_NE(at, std::string::npos);
  text.replace(at, 18, "\"requiredGap\": 0.45");
  folder_.write("hatch_box.swing.json", text);
  hand_.key(QStringLiteral("F5"));
  ASSERT_TRUE(soon([&] {
    return session().scene() && session().scene()->assembly().requiredGapMm(part("lid"), part("bolt")) == 0.45;
  }));
  waitForCheck();
  EXPECT_EQ(verdictOf("lid", "bolt"), Verdict::tight);  // 0.4 apart.
}

TEST_F(OpenWindow, WholeStaysInViewOnItsWay) {
  open();
  window_->view()->fit();
  for (const double instant : {0.6, 0.7, 0.8, 0.9, 1.0}) session().stand().moveTo(instant);
  QTest::qWait(300);
  // The lid's corners, by the view's own projection (tested in tests/app/viewport).
  const Scene& scene = *session().scene();
  const auto X_WPs = posesOf(scene.assembly(), session().stand().standing());
  const ViewProjection seen = window_->view()->projection();
  for (const Vector3d& vertex : scene.assembly().part(part("lid")).mesh->vertices) {
    const Eigen::Vector2d pixel = seen.pixel(X_WPs[part("lid").index] * vertex);
    EXPECT_TRUE(QRectF(window_->view()->rect()).contains(pixel.x(), pixel.y()))
        << pixel.transpose();
  }
}

TEST_F(OpenWindow, OnePartWithoutModesIsShownAndNothingIsCalledProven) {
  const auto lone = folder_.write("lone.swing.json", R"({"swingroom": 1, "parts": [
      {"name": "lid", "stages": {"block": "lid.stl"}}, {"name": "bought axle", "kind": "bought"}]})");
  window_->open(QString::fromStdString(lone.string()));
  waitForCheck();
  EXPECT_TRUE(window_->ribbon().rows().ribbon().rows.empty());
  hand_.key(QStringLiteral("Right"));
  hand_.key(QStringLiteral("space"));
  QTest::qWait(300);
  QStringList said;
  for (const QLabel* label : window_->findings().findChildren<QLabel*>()) {
    if (label->isVisible()) said += label->text();
  }
  EXPECT_TRUE(said.join(QLatin1Char(' ')).contains(QStringLiteral("nothing to look at")));
  EXPECT_FALSE(said.join(QLatin1Char(' ')).contains(QStringLiteral("proven")));
}

TEST_F(OpenWindow, FileThatIsDroppedIsOpened) {
  QMimeData dropped;
  dropped.setUrls({QUrl::fromLocalFile(QString::fromStdString(file_.string()))});
  QDragEnterEvent enter(QPoint(300, 300), Qt::CopyAction, &dropped, Qt::LeftButton,
                        Qt::NoModifier);
  QApplication::sendEvent(window_.get(), &enter);
  EXPECT_TRUE(enter.isAccepted());
  QDropEvent drop(QPointF(300, 300), Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(window_.get(), &drop);
  waitForCheck();
  EXPECT_EQ(session().document().file(), file_);
}

TEST_F(OpenWindow, OpenFileIsAmongTheRecentOnes) {
  open();
  EXPECT_EQ(preferences_.recentFiles().value(0), QString::fromStdString(file_.string()));
}

TEST_F(OpenWindow, NothingIsDrawnAgainWhenNothingChanges) {
  open();
  QTest::qWait(600);  // The fine picture has come.
  const int before = window_->view()->framesDrawn();
  QTest::qWait(500);
  EXPECT_EQ(window_->view()->framesDrawn(), before);
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  ::testing::InitGoogleTest(&argc, argv);
  QStandardPaths::setTestModeEnabled(true);
  const QTemporaryDir settings;  // Of this run alone: others may run at the same time.
  QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, settings.path());
  QCoreApplication::setOrganizationName(QStringLiteral("Swingroom"));
  QCoreApplication::setApplicationName(QStringLiteral("Swingroom tests"));
  QApplication app(argc, argv);
  return RUN_ALL_TESTS();
}
