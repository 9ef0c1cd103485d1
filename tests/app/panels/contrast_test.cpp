#include <gtest/gtest.h>

#include <QApplication>
#include <QColor>
#include <QImage>
#include <QPainter>
#include <tuple>

#include "app/panels/theme.h"
#include "app/panels/way/ribbon_paint.h"
#include "tests/app/panels/wcag.h"

namespace swingroom {
namespace {

std::string named(const QColor& a, const QColor& b) {
  return a.name().toStdString() + " on " + b.name().toStdString();
}

// The figures that W3C's Understanding pages for SC 1.4.3 and contrast tools give; two decimals.
TEST(Contrast, FormulaGivesPublishedRatios) {
  EXPECT_NEAR(contrast(QColor(0, 0, 0), QColor(255, 255, 255)), 21, 1e-9);
  EXPECT_NEAR(contrast(QColor(0x76, 0x76, 0x76), QColor(255, 255, 255)), 4.54, 0.005);
  EXPECT_NEAR(contrast(QColor(0, 0, 255), QColor(255, 255, 255)), 8.59, 0.005);
  EXPECT_NEAR(contrast(QColor(255, 255, 0), QColor(255, 255, 255)), 1.07, 0.005);
  EXPECT_NEAR(contrast(QColor(255, 0, 0), QColor(0, 0, 255)), 2.15, 0.005);
}

// Luminances worked out beside the code from the definition, to four decimals; #777777, #949494 and
// #959595 lie on either side of the limits.
TEST(Contrast, FormulaHoldsOnEitherSideOfTheLimits) {
  const QColor white(255, 255, 255), black(0, 0, 0);
  const std::tuple<unsigned, QColor, double> ratios[] = {
      {0x767676, white, 4.5422}, {0x777777, white, 4.4781}, {0x949494, white, 3.0335},
      {0x959595, white, 2.9953}, {0x008000, white, 5.1374}, {0x595959, white, 7.0047},
      {0xFF0000, white, 3.9985}, {0x0000FF, white, 8.5925}, {0xFFFF00, white, 1.0738},
      {0xFFFFFF, white, 1}};
  for (const auto& [colour, ground, ratio] : ratios) {
    EXPECT_NEAR(contrast(QColor::fromRgb(colour), ground), ratio, 1e-4) << colour;
  }
  // The palette's own: two decimals.
  const std::tuple<unsigned, double, double> palette[] = {
      {0xE69F00, 2.25, 9.32},  {0x56B4E9, 2.31, 9.10}, {0x009E73, 3.42, 6.14},
      {0xF0E442, 1.32, 15.88}, {0x0072B2, 5.19, 4.05}, {0xD55E00, 3.87, 5.43},
      {0xCC79A7, 3.06, 6.86}};
  for (const auto& [colour, onWhite, onBlack] : palette) {
    EXPECT_NEAR(contrast(QColor::fromRgb(colour), white), onWhite, 0.006) << colour;
    EXPECT_NEAR(contrast(QColor::fromRgb(colour), black), onBlack, 0.006) << colour;
  }
}

class ThemeContrast : public ::testing::TestWithParam<bool> {
 protected:
  const Theme theme_ = GetParam() ? darkTheme() : lightTheme();
};

TEST_P(ThemeContrast, WordsCanBeReadOnEveryGround) {
  for (const QColor& ground : {theme_.ground, theme_.panel, theme_.chosen, theme_.hover}) {
    for (const QColor& words : {theme_.ink, theme_.soft}) {
      EXPECT_GE(contrast(words, ground), kText) << named(words, ground);
    }
  }
  EXPECT_GE(contrast(theme_.accent, theme_.panel), kText);
  EXPECT_GE(contrast(theme_.onAccent, theme_.accent), kText);
}

TEST_P(ThemeContrast, MarksAndLinesStandOutOnEveryGround) {
  for (const QColor& ground : {theme_.ground, theme_.panel, theme_.chosen, theme_.hover}) {
    // Tight and loose are edged: their edges carry the shape.
    for (const QColor& mark : {theme_.clash, theme_.tightEdge, theme_.looseEdge, theme_.unproven,
                               theme_.clear, theme_.allowed, theme_.accent}) {
      EXPECT_GE(contrast(mark, ground), kGraphics) << named(mark, ground);
    }
  }
  EXPECT_GE(contrast(theme_.fieldEdge, theme_.panel), kGraphics);
}

// Okabe and Ito, Color Universal Design (2008): the hex values in common use.
TEST_P(ThemeContrast, VerdictsHaveTheirColoursOfThePalette) {
  EXPECT_EQ(theme_.clash, QColor(0xD5, 0x5E, 0x00));
  EXPECT_EQ(theme_.tight, QColor(0xE6, 0x9F, 0x00));
  EXPECT_EQ(theme_.loose, QColor(0xCC, 0x79, 0xA7));
  EXPECT_EQ(theme_.clear, GetParam() ? QColor(0x56, 0xB4, 0xE9) : QColor(0x00, 0x72, 0xB2));
}

INSTANTIATE_TEST_SUITE_P(LightAndDark, ThemeContrast, ::testing::Bool());

TEST(Contrast, BlueDeepensSteadilyTowardsTheRequiredGap) {
  double before = 1;
  for (int i = 0; i <= 10; ++i) {
    const double here = contrast(gapTone(i / 10.0), lightTheme().panel);
    EXPECT_GT(here, before);
    before = here;
  }
}

/// The colour that a tone has most, or its lines have, in the present theme.
QColor strongestOf(RibbonTone tone) {
  QImage image(80, 16, QImage::Format_RGB32);
  image.fill(theme().panel);
  QPainter painter(&image);
  paintTone(painter, image.rect(), image.rect(), tone);
  painter.end();
  QColor strongest = theme().panel;
  for (int x = 0; x < image.width(); ++x) {
    for (int y = 0; y < image.height(); ++y) {
      const QColor here = image.pixelColor(x, y);
      if (contrast(here, theme().panel) > contrast(strongest, theme().panel)) strongest = here;
    }
  }
  return strongest;
}

// What asks for attention in the ribbon stands out from the panel (SC 1.4.11); a gap that passes
// may fade into it.
TEST(Contrast, RunsThatAskForAttentionStandOut) {
  for (const bool dark : {false, true}) {
    applyTheme(*qApp, dark ? darkTheme() : lightTheme());
    for (const RibbonTone tone : {RibbonTone::clash, RibbonTone::tight, RibbonTone::unproven}) {
      EXPECT_GE(contrast(strongestOf(tone), theme().panel), kGraphics)
          << static_cast<int>(tone) << (dark ? " dark" : " light");
    }
    EXPECT_LT(contrast(strongestOf(RibbonTone::gap), theme().panel), 1.3) << "far gaps are quiet";
  }
  applyTheme(*qApp, lightTheme());
}

// At 0.05 mm above what is required, where joints hold all along, the blue is far from its deepest.
TEST(Contrast, BlueIsQuietFromAFewHundredthsOn) {
  for (const bool dark : {false, true}) {
    applyTheme(*qApp, dark ? darkTheme() : lightTheme());
    const double least = contrast(gapTone(0), theme().panel);
    const double deepest = contrast(gapTone(1), theme().panel);
    const double near = contrast(gapTone(1 - 0.05 / 1.5), theme().panel);
    EXPECT_LT(near - least, 0.4 * (deepest - least));
    EXPECT_GT(contrast(gapTone(1 - 0.01 / 1.5), theme().panel), near + 0.2 * (deepest - near));
  }
  applyTheme(*qApp, lightTheme());
}

}  // namespace
}  // namespace swingroom
