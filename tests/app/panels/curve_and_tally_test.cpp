#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QTest>
#include <cmath>

#include "app/panels/findings/gap_curve_view.h"
#include "app/panels/findings/verdict_tally.h"
#include "app/panels/theme.h"
#include "tests/app/panels/picture.h"

namespace swingroom {
namespace {

/// gap = 4 |t - 1/2| - 1 mm: overlap between 1/4 and 3/4, 1 mm deep at 1/2.
CurveDrawing wedge() {
  CurveDrawing drawing;
  for (int i = 0; i <= 100; ++i) {
    const double t = i / 100.0;
    drawing.samples.push_back({t, 4 * std::abs(t - 0.5) - 1});
  }
  drawing.requiredMm = 0.3;
  drawing.steps = 4;
  return drawing;
}

TEST(GapCurveView, ClickAndDragScrub) {
  GapCurveView view;
  view.resize(260, 112);
  view.setDrawing(wedge());
  std::vector<double> wanted;
  QObject::connect(&view, &GapCurveView::instantWanted, [&](double t) { wanted.push_back(t); });
  const auto instantOf = [&](double x) { return (x - view.axis().left) / view.axis().width; };
  press(view, {100, 50});
  dragTo(view, {151, 50}, Qt::AltModifier);
  dragTo(view, {400, 50}, Qt::AltModifier);
  QTest::keyClick(&view, Qt::Key_Right);
  ASSERT_EQ(wanted.size(), 4u);
  EXPECT_NEAR(wanted[0], instantOf(100), 1e-12);
  EXPECT_NEAR(wanted[1], instantOf(151), 1e-12);
  EXPECT_EQ(wanted[2], 1);
  EXPECT_EQ(wanted[3], 0.25);  // The first of three beads, the needle being at 0.
}

TEST(GapCurveView, HeightsAreLinearInTheGapAndUpwards) {
  GapCurveView view;
  view.resize(260, 112);
  view.setDrawing(wedge());
  EXPECT_GT(view.yAt(0), view.yAt(0.5));
  EXPECT_NEAR(view.yAt(-0.5) - view.yAt(0), view.yAt(0) - view.yAt(0.5), 1e-9);
  EXPECT_NEAR(view.yAt(-1) - view.yAt(0), 2 * (view.yAt(0) - view.yAt(0.5)), 1e-9);
}

// Half way down the wedge the overlap reaches from 3/8 to 5/8.
TEST(GapCurveView, OverlapIsFilledBetweenZeroAndTheCurve) {
  GapCurveView view;
  view.resize(520, 224);
  view.setDrawing(wedge());
  view.setInstant(0);
  const QImage picture = pictureOf(view);
  const auto isFilled = [&](double x) {
    const QColor c = colourAt(picture, x, view.yAt(-0.5));
    return c.red() - c.blue() > 30;
  };
  const double from = view.axis().xAt(0.375), to = view.axis().xAt(0.625);
  // The curve itself is 2.2 px wide and runs aslant here.
  for (double x = from + 1; x < to - 1; x += 1) EXPECT_TRUE(isFilled(x)) << x;
  EXPECT_FALSE(isFilled(from - 4));
  EXPECT_FALSE(isFilled(to + 4));
}

TEST(GapCurveView, WithoutOverlapNothingIsVermillion) {
  GapCurveView view;
  view.resize(260, 112);
  CurveDrawing drawing = wedge();
  for (GapSample& sample : drawing.samples) sample.gapMm = std::abs(sample.gapMm) + 0.4;
  view.setDrawing(drawing);
  const QImage picture = pictureOf(view);
  for (int y = 0; y < picture.height(); ++y) {
    for (int x = 0; x < picture.width(); ++x) {
      const QColor c = picture.pixelColor(x, y);
      ASSERT_FALSE(c.red() - c.blue() > 100 && c.green() < 0.6 * c.red()) << x << " " << y;
    }
  }
}

TEST(GapCurveView, SaysTheGapUnderTheNeedle) {
  GapCurveView view;
  view.setDrawing(wedge());
  view.setInstant(0.5);
  EXPECT_TRUE(view.accessibleDescription().contains(QStringLiteral("1.00 mm deep")));
  view.setInstant(0.875);
  EXPECT_TRUE(view.accessibleDescription().contains(QStringLiteral("0.50 mm")));
  view.setDrawing({});
  EXPECT_TRUE(view.accessibleDescription().contains(QStringLiteral("measuring")));
}

std::vector<QAbstractButton*> shownItems(const VerdictTally& tally) {
  std::vector<QAbstractButton*> shown;
  for (auto* item : tally.findChildren<QAbstractButton*>()) {
    if (!item->isHidden()) shown.push_back(item);
  }
  return shown;
}

TEST(VerdictTally, AClickNamesItsVerdict) {
  VerdictTally tally;
  tally.setCounts({2, 3, 1, 0, 114, 0});
  tally.resize(tally.sizeHint());
  std::vector<Verdict> clicked;
  QObject::connect(&tally, &VerdictTally::verdictClicked,
                   [&](Verdict verdict) { clicked.push_back(verdict); });
  for (QAbstractButton* item : shownItems(tally)) QTest::mouseClick(item, Qt::LeftButton);
  EXPECT_EQ(clicked, (std::vector<Verdict>{Verdict::clash, Verdict::tight, Verdict::loose,
                                           Verdict::unproven, Verdict::clear}));
}

TEST(VerdictTally, AllowedIsShownOnlyIfThereIsAny) {
  VerdictTally tally;
  tally.setCounts({0, 0, 0, 0, 114, 0});
  EXPECT_EQ(shownItems(tally).size(), 5u);
  tally.setCounts({0, 0, 0, 0, 110, 4});
  EXPECT_EQ(shownItems(tally).size(), 6u);
}

TEST(VerdictTally, WordsGoBeforeNumbersDo) {
  VerdictTally tally;
  tally.setCounts({2, 3, 1, 0, 780, 4});
  tally.resize(tally.sizeHint());
  tally.show();
  EXPECT_EQ(tally.words(), VerdictTally::Words::all);
  tally.resize(tally.width() - 1, tally.height());
  EXPECT_EQ(tally.words(), VerdictTally::Words::ofWhatIsThere);
  tally.resize(tally.minimumSizeHint());
  EXPECT_EQ(tally.words(), VerdictTally::Words::none);
  for (const QAbstractButton* item : shownItems(tally)) {
    EXPECT_GE(item->geometry().left(), 0);
    EXPECT_LE(item->geometry().right(), tally.width());
    EXPECT_GE(item->width(), item->sizeHint().width());
    EXPECT_FALSE(item->toolTip().isEmpty());
  }
}

}  // namespace
}  // namespace swingroom
