#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QPainter>

#include "app/panels/findings/gap_curve_view.h"
#include "app/panels/findings/verdict_tally.h"
#include "app/panels/marks.h"
#include "app/panels/theme.h"
#include "app/panels/way/ribbon_paint.h"
#include "app/panels/way/way_ribbon.h"
#include "tests/app/panels/picture.h"
#include "tests/app/panels/tug_ribbon.h"

namespace swingroom {
namespace {

/// Vermillion, also under its white hatch: red well above blue, and not amber.
bool isClash(const QColor& c) {
  return c.red() - c.blue() > 100 && c.green() < 150;
}

/// First and last x, in device independent units, of the clash in a row of the rows' picture.
std::pair<double, double> clashAlong(const QImage& picture, double y) {
  const double ratio = picture.devicePixelRatio();
  int first = -1, last = -1;
  for (int x = 0; x < picture.width(); ++x) {
    if (!isClash(picture.pixelColor(x, static_cast<int>(y * ratio)))) continue;
    if (first < 0) first = x;
    last = x;
  }
  return {first / ratio, (last + 1) / ratio};
}

class PaintedRibbon : public ::testing::TestWithParam<bool> {
 protected:
  void SetUp() override { applyTheme(*qApp, GetParam() ? darkTheme() : lightTheme()); }
  void TearDown() override { applyTheme(*qApp, lightTheme()); }

  GapRows& rowsOf(WayRibbon& ribbon) { return *ribbon.findChild<GapRows*>(); }
};

// x = left + instant * width; within 1 px.
TEST_P(PaintedRibbon, AClashLiesBetweenItsInstants) {
  WayRibbon ribbon;
  ribbon.resize(1100, 300);
  ribbon.setWay(tugWay(6));
  Ribbon data;
  const double spans[][2] = {{0.25, 0.5}, {0.123, 0.4567}, {0.9, 1}, {0.01, 0.02}, {0.7, 0.995}};
  for (const auto& span : spans) {
    data.rows.push_back(tugRow(
        data.rows.size(), {{0, 1, RibbonTone::gap, 0.4}, {span[0], span[1], RibbonTone::clash}},
        Verdict::clash));
  }
  ribbon.setRibbon(data);
  ribbon.show();
  const QImage picture = pictureOf(*rowsOf(ribbon).viewport());
  const int left = static_cast<int>(ribbon.axis().left * picture.devicePixelRatio());
  const QImage cells = picture.copy(left, 0, picture.width() - left, picture.height());
  for (std::size_t r = 0; r < data.rows.size(); ++r) {
    const auto [from, to] = clashAlong(cells, rowsOf(ribbon).cellRect(r).center().y());
    EXPECT_NEAR(from, spans[r][0] * ribbon.axis().width, 1) << r;
    EXPECT_NEAR(to, spans[r][1] * ribbon.axis().width, 1) << r;
  }
}

TEST_P(PaintedRibbon, ATouchOfNoLengthIsSeen) {
  WayRibbon ribbon;
  ribbon.resize(1100, 300);
  ribbon.setWay(tugWay(6));
  Ribbon data;
  for (const double at : {0.0, 0.3, 1.0}) {
    data.rows.push_back(tugRow(data.rows.size(),
                               {{0, 1, RibbonTone::gap, 0.4}, {at, at, RibbonTone::clash}},
                               Verdict::clear));
  }
  ribbon.setRibbon(data);
  ribbon.setInstant(0.6);
  ribbon.show();
  const QImage picture = pictureOf(*rowsOf(ribbon).viewport());
  for (std::size_t r = 0; r < data.rows.size(); ++r) {
    const auto [from, to] = clashAlong(picture, rowsOf(ribbon).cellRect(r).center().y());
    EXPECT_GE(to - from, 2) << r;
    EXPECT_GE(from, ribbon.axis().left - 1);
    EXPECT_LE(to, ribbon.axis().right() + 1);
  }
}

TEST_P(PaintedRibbon, TheNeedleRunsThroughLineAndRowsAtOneX) {
  WayRibbon ribbon;
  ribbon.resize(1100, 300);
  ribbon.setWay(tugWay(6));
  ribbon.setRibbon(tugRibbon(12));
  ribbon.setInstant(0.4);
  ribbon.show();
  const QImage picture = pictureOf(ribbon);
  const double x = ribbon.axis().xAt(0.4);
  for (double y = 84; y < 250; y += 1) {
    int nearest = 255;
    for (const double shift : {-1.0, -0.5, 0.0, 0.5}) {
      nearest = std::min(nearest, difference(colourAt(picture, x + shift, y), theme().ink));
    }
    // A line of 1.5 px covers at least three quarters of one pixel column at 100 %.
    EXPECT_LT(nearest, 80) << y;
  }
}

TEST_P(PaintedRibbon, OnePaintingInPiecesIsTheSameAsInOne) {
  const QRectF cell(3, 4, 300, 15);
  const QRectF all(0, 0, 310, 24);
  for (const RibbonTone tone : {RibbonTone::clash, RibbonTone::loose, RibbonTone::unproven,
                                RibbonTone::tight, RibbonTone::pending}) {
    QImage once(310, 24, QImage::Format_RGB32), pieces = once;
    once.fill(theme().panel);
    pieces.fill(theme().panel);
    {
      QPainter painter(&once);
      paintTone(painter, cell, all, tone);
    }
    for (int x = 0; x < 310; x += 31) {
      QPainter painter(&pieces);
      paintTone(painter, cell, QRectF(x, 0, 31, 24), tone);
    }
    // Smoothed edges may round differently by a level or two.
    for (int y = 0; y < 24; ++y) {
      for (int x = 0; x < 310; ++x) {
        ASSERT_LE(difference(once.pixelColor(x, y), pieces.pixelColor(x, y)), 2)
            << static_cast<int>(tone) << " at " << x << " " << y;
      }
    }
  }
}

TEST_P(PaintedRibbon, TexturesTellTonesApartWithoutColour) {
  for (const RibbonTone tone : {RibbonTone::clash, RibbonTone::loose, RibbonTone::unproven}) {
    QImage image(60, 15, QImage::Format_RGB32);
    image.fill(theme().panel);
    QPainter painter(&image);
    paintTone(painter, image.rect(), image.rect(), tone);
    int least = 255, most = 0;
    for (int x = 0; x < 60; ++x) {
      for (int y = 0; y < 15; ++y) {
        least = std::min(least, qGray(image.pixel(x, y)));
        most = std::max(most, qGray(image.pixel(x, y)));
      }
    }
    EXPECT_GT(most - least, 15) << static_cast<int>(tone);
  }
}

/// Counts how often a widget is painted.
class PaintCounter : public QObject {
 public:
  int count = 0;
  bool eventFilter(QObject*, QEvent* event) override {
    if (event->type() == QEvent::Paint) ++count;
    return false;
  }
};

TEST_P(PaintedRibbon, AnotherThemeIsSeenAtOnce) {
  WayRibbon ribbon;
  GapCurveView curve;
  VerdictTally tally;
  for (QWidget* widget : std::initializer_list<QWidget*>{&ribbon, &curve, &tally}) widget->show();
  QApplication::processEvents();
  PaintCounter painted[3];
  ribbon.installEventFilter(&painted[0]);
  curve.installEventFilter(&painted[1]);
  tally.findChild<QAbstractButton*>()->installEventFilter(&painted[2]);
  applyTheme(*qApp, GetParam() ? lightTheme() : darkTheme());
  QApplication::processEvents();
  for (const PaintCounter& each : painted) EXPECT_GE(each.count, 1);
}

INSTANTIATE_TEST_SUITE_P(LightAndDark, PaintedRibbon, ::testing::Bool());

/// Whether a mark of 64 px covers a place of its 16 units square.
bool covers(Verdict verdict, double x, double y) {
  QImage image(64, 64, QImage::Format_ARGB32_Premultiplied);
  image.fill(Qt::transparent);
  QPainter painter(&image);
  paintMark(painter, image.rect(), verdict);
  return qAlpha(image.pixel(static_cast<int>(x * 4), static_cast<int>(y * 4))) > 128;
}

// The shapes as look.md names them.
TEST(Marks, HaveTheShapesOfTheirVerdicts) {
  EXPECT_TRUE(covers(Verdict::clash, 8, 8) && covers(Verdict::clash, 4, 4));
  EXPECT_FALSE(covers(Verdict::clash, 8, 3) || covers(Verdict::clash, 3, 8));
  EXPECT_TRUE(covers(Verdict::tight, 8, 4) && covers(Verdict::tight, 3, 13));
  EXPECT_FALSE(covers(Verdict::tight, 3, 4) || covers(Verdict::tight, 13, 4));
  EXPECT_TRUE(covers(Verdict::loose, 12, 4));                                    // Ring
  EXPECT_FALSE(covers(Verdict::loose, 8, 8) || covers(Verdict::loose, 8, 2.4));  // broken.
  EXPECT_TRUE(covers(Verdict::unproven, 2.6, 2.6) && covers(Verdict::unproven, 8, 2.6));
  EXPECT_FALSE(covers(Verdict::unproven, 8, 8) || covers(Verdict::unproven, 5.8, 2.6));
  EXPECT_TRUE(covers(Verdict::clear, 8, 8) && covers(Verdict::clear, 8, 3));
  EXPECT_FALSE(covers(Verdict::clear, 2.5, 2.5));
  EXPECT_TRUE(covers(Verdict::allowed, 4, 8) && covers(Verdict::allowed, 12, 8));
  EXPECT_FALSE(covers(Verdict::allowed, 8, 4));
}

TEST(Marks, IconsAreAsSharpAsTheScreen) {
  const QPixmap picture = markIcon(Verdict::clear).pixmap(QSize(16, 16), 2.0);
  EXPECT_EQ(picture.size(), QSize(32, 32));
  EXPECT_EQ(picture.toImage().pixelColor(16, 16), theme().clear);
  EXPECT_EQ(picture.toImage().pixelColor(1, 1).alpha(), 0);
}

}  // namespace
}  // namespace swingroom
