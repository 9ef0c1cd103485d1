// The way seen close up: one axis for line, rows, needle and overview.
#include <gtest/gtest.h>

#include <QTest>
#include <QWheelEvent>

#include "app/panels/theme.h"
#include "app/panels/way/line_of_steps.h"
#include "app/panels/way/way_overview.h"
#include "app/panels/way/way_ribbon.h"
#include "tests/app/panels/picture.h"
#include "tests/app/panels/tug_ribbon.h"

namespace swingroom {
namespace {

constexpr double kExactZoom = 1e-12;

TEST(ZoomedAxis, KeepsTheInstantUnderThePointerWhereItIs) {
  WayAxis axis{200, 800};
  for (const double x : {200.0, 333.0, 600.0, 1000.0}) {
    const WayAxis closer = zoomedAbout(axis, x, 4);
    EXPECT_NEAR(closer.span(), 0.25, kExactZoom);
    EXPECT_NEAR(closer.instantAt(x), (x - 200) / 800, kExactZoom);
    EXPECT_NEAR(closer.xAt((x - 200) / 800), x, 1e-9);
  }
}

TEST(ZoomedAxis, GoesNoFartherThanTheWholeWayAndNoCloserThanAHundredth) {
  WayAxis axis{200, 800};
  EXPECT_TRUE(zoomedAbout(axis, 500, 0.5).isWhole());
  const WayAxis closest = zoomedAbout(axis, 500, 1e6);
  EXPECT_NEAR(closest.span(), kLeastSpan, kExactZoom);
  WayAxis back = closest;
  for (int i = 0; i < 60; ++i) back = zoomedAbout(back, 320, 1 / 1.25);
  EXPECT_EQ(back, axis) << "exactly the whole way again";
}

TEST(PannedAxis, StopsAtTheEndsOfTheWay) {
  const WayAxis axis = zoomedAbout({0, 100}, 50, 2);
  EXPECT_NEAR(pannedTo(axis, 0.4).from, 0.4, kExactZoom);
  EXPECT_EQ(pannedTo(axis, -3).from, 0);
  EXPECT_NEAR(pannedTo(axis, 0.9).from, 0.5, kExactZoom);
  EXPECT_EQ(pannedTo(axis, 0.9).to, 1);
}

TEST(WithInSight, MovesNoMoreThanItTakes) {
  const WayAxis axis = pannedTo(zoomedAbout({0, 100}, 50, 4), 0.5);  // 0.5 to 0.75
  EXPECT_EQ(withInSight(axis, 0.6), axis);
  for (const double instant : {0.0, 0.2, 0.505, 0.745, 0.9, 1.0}) {
    const WayAxis seen = withInSight(axis, instant);
    EXPECT_NEAR(seen.span(), 0.25, kExactZoom);
    EXPECT_TRUE(seen.sees(instant)) << instant;
  }
}

class ZoomedRibbon : public ::testing::Test {
 protected:
  void SetUp() override {
    ribbon_.resize(1024, 400);
    ribbon_.setWay(tugWay(10));
    ribbon_.setRibbon(tugRibbon(40));
    ribbon_.show();
    rows_ = ribbon_.findChild<GapRows*>();
    line_ = ribbon_.findChild<LineOfSteps*>();
    QObject::connect(&ribbon_, &WayRibbon::instantWanted, [this](double instant) {
      wanted_.push_back(instant);
      ribbon_.setInstant(instant);
    });
  }

  void turn(QWidget& over, double x, const QPoint& angle, Qt::KeyboardModifiers with) {
    const QPointF place(x, over.height() / 2.0);
    QWheelEvent event(place, over.mapToGlobal(place), {}, angle, Qt::NoButton, with,
                      Qt::NoScrollPhase, false);
    QSpontaneKeyEvent::setSpontaneous(&event);  // As from a hand: only those go on to parents.
    qApp->notify(&over, &event);
  }
  double share(double x) const { return (x - ribbon_.axis().left) / ribbon_.axis().width; }

  WayRibbon ribbon_;
  GapRows* rows_ = nullptr;
  LineOfSteps* line_ = nullptr;
  std::vector<double> wanted_;
};

TEST_F(ZoomedRibbon, CtrlWheelOverRowsAndLineGoesCloserAboutThePointer) {
  const double x = 700, before = share(x);
  turn(*rows_->viewport(), x, {0, 120}, Qt::ControlModifier);
  turn(*line_, x, {0, 120}, Qt::ControlModifier);
  EXPECT_NEAR(ribbon_.axis().span(), 1 / (1.25 * 1.25), kExactZoom);
  EXPECT_NEAR(ribbon_.axis().instantAt(x), before, kExactZoom);
  EXPECT_TRUE(ribbon_.overview().isVisible());
  turn(*line_, x, {0, -120}, Qt::ControlModifier);
  turn(*line_, x, {0, -120}, Qt::ControlModifier);
  EXPECT_TRUE(ribbon_.axis().isWhole());
  EXPECT_FALSE(ribbon_.overview().isVisible());
}

TEST_F(ZoomedRibbon, ThePlainWheelScrollsRowsAndShiftMovesWhatIsSeen) {
  ribbon_.setInstant(0.5);
  ribbon_.zoomBy(4);
  const WayAxis before = ribbon_.axis();
  turn(*rows_->viewport(), 600, {0, -120}, Qt::NoModifier);
  EXPECT_EQ(ribbon_.axis(), before);
  EXPECT_LT(rows_->cellRect(0).top(), 0) << "scrolled";
  turn(*rows_->viewport(), 600, {0, -120}, Qt::ShiftModifier);
  EXPECT_GT(ribbon_.axis().from, before.from);
  turn(*rows_->viewport(), 600, {120, 0}, Qt::NoModifier);
  EXPECT_NEAR(ribbon_.axis().from, before.from, kExactZoom) << "and back";
}

TEST_F(ZoomedRibbon, KeysGoCloserFartherAndBack) {
  ribbon_.setInstant(0.8);
  const double x = ribbon_.axis().xAt(0.8);
  QTest::keyClick(&ribbon_, Qt::Key_Plus, Qt::ControlModifier);
  QTest::keyClick(&ribbon_, Qt::Key_Equal, Qt::ControlModifier);
  EXPECT_LT(ribbon_.axis().span(), 0.5);
  EXPECT_NEAR(ribbon_.axis().xAt(0.8), x, 1e-9) << "about the needle";
  QTest::keyClick(&ribbon_, Qt::Key_Minus, Qt::ControlModifier);
  EXPECT_NEAR(ribbon_.axis().span(), 1 / (1.25 * 1.25), kExactZoom);
  QTest::keyClick(&ribbon_, Qt::Key_0, Qt::ControlModifier);
  EXPECT_TRUE(ribbon_.axis().isWhole());
  EXPECT_TRUE(wanted_.empty()) << "the needle stays";
}

TEST_F(ZoomedRibbon, ACellStandsAtTheInstantThatIsSeenThere) {
  ribbon_.setInstant(0.3);
  ribbon_.zoomBy(4);
  const WayAxis axis = ribbon_.axis();
  double stood = -1;
  QObject::connect(&ribbon_, &WayRibbon::pairWanted,
                   [&](PartId, PartId, double instant) { stood = instant; });
  press(*rows_->viewport(), {500, rows_->cellRect(2).center().y()});
  EXPECT_NEAR(stood, axis.from + (500 - axis.left) / axis.width * axis.span(), kExactZoom);
}

TEST_F(ZoomedRibbon, DraggingAtAnEdgeMovesWhatIsSeen) {
  ribbon_.setInstant(0.5);
  ribbon_.zoomBy(8);
  const double edge = ribbon_.axis().right() - 2;
  press(*line_, {600, 34}, Qt::AltModifier);
  double last = ribbon_.axis().from;
  for (int i = 0; i < 5; ++i) {
    dragTo(*line_, {edge, 34}, Qt::AltModifier);
    EXPECT_GT(ribbon_.axis().from, last);
    last = ribbon_.axis().from;
    EXPECT_TRUE(ribbon_.axis().sees(ribbon_.instant()));
  }
}

TEST_F(ZoomedRibbon, TheNeedleIsFollowedAndNotPulledBack) {
  ribbon_.setInstant(0.5);
  ribbon_.zoomBy(4);
  ribbon_.setInstant(0.95);
  EXPECT_TRUE(ribbon_.axis().sees(0.95));
  turn(*line_, 600, {0, 1200}, Qt::ShiftModifier);
  const WayAxis aside = ribbon_.axis();
  EXPECT_FALSE(aside.sees(0.95));
  ribbon_.setInstant(0.95);  // As when more results come.
  EXPECT_EQ(ribbon_.axis(), aside);
}

TEST_F(ZoomedRibbon, TheOverviewShowsAndMovesThePartThatIsSeen) {
  ribbon_.setInstant(0.5);
  ribbon_.zoomBy(4);
  WayOverview& overview = ribbon_.overview();
  const QRectF thumb = overview.thumb();
  EXPECT_NEAR(thumb.left(), ribbon_.axis().left + ribbon_.axis().from * ribbon_.axis().width, 1e-9);
  EXPECT_NEAR(thumb.width(), ribbon_.axis().width / 4, 1e-9);
  const double from = ribbon_.axis().from;
  press(overview, thumb.center());
  EXPECT_NEAR(ribbon_.axis().from, from, 1e-9) << "gripped, not moved";
  dragTo(overview, thumb.center() + QPointF(0.1 * ribbon_.axis().width, 0));
  EXPECT_NEAR(ribbon_.axis().from, from + 0.1, 1e-9);
  release(overview, thumb.center());
  press(overview, {ribbon_.axis().left + 2, 7});
  EXPECT_EQ(ribbon_.axis().from, 0) << "beside it: brought there";
}

TEST_F(ZoomedRibbon, AnotherWayIsSeenWhole) {
  ribbon_.zoomBy(4);
  ribbon_.setWay(tugWay(10));
  EXPECT_FALSE(ribbon_.axis().isWhole()) << "the same again";
  ribbon_.setWay(tugWay(3));
  EXPECT_TRUE(ribbon_.axis().isWhole());
}

TEST_F(ZoomedRibbon, NamesOfStepsAreThoseInSight) {
  ribbon_.setInstant(0.55);
  ribbon_.zoomBy(100);
  const auto labels = line_->stepLabels();
  ASSERT_EQ(labels.size(), 1u);
  EXPECT_TRUE(labels[0].text.startsWith(QStringLiteral("6 ")));
  EXPECT_GE(labels[0].rect.left(), ribbon_.axis().left - 9);
  EXPECT_LE(labels[0].rect.right(), ribbon_.axis().right() + 9);
}

// A clash at 0.4 to 0.5 of the way, seen from 0.4 on by a quarter: it covers 0.4 of the width.
TEST_F(ZoomedRibbon, RunsLieOnTheSameAxisAndEndAtItsEdges) {
  Ribbon data;
  data.rows = {
      tugRow(0, {{0, 1, RibbonTone::gap, 0.2}, {0.3, 0.5, RibbonTone::clash}}, Verdict::clash)};
  ribbon_.setRibbon(data);
  ribbon_.setInstant(0.6);
  ribbon_.zoomBy(4);
  const double from = ribbon_.axis().from;
  ASSERT_GT(from, 0.3);
  ASSERT_LT(from, 0.5);
  const QImage picture = pictureOf(*rows_->viewport());
  const double y = rows_->cellRect(0).center().y();
  const auto isRed = [&](double x) {
    const QColor c = colourAt(picture, x, y);
    return c.red() - c.blue() > 100;
  };
  const double end = ribbon_.axis().left + (0.5 - from) / 0.25 * ribbon_.axis().width;
  EXPECT_FALSE(isRed(ribbon_.axis().left - 3)) << "not over the labels";
  EXPECT_TRUE(isRed(ribbon_.axis().left + 2));
  EXPECT_TRUE(isRed(end - 2));
  EXPECT_FALSE(isRed(end + 2));
  EXPECT_FALSE(isRed(ribbon_.axis().right() + 3));
}

}  // namespace
}  // namespace swingroom
