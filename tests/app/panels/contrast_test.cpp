#include <gtest/gtest.h>

#include <QColor>
#include <cmath>

#include "app/panels/ribbon_paint.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

/// Relative luminance and contrast ratio as WCAG 2.2 defines them (w3.org/TR/WCAG22, "relative
/// luminance", "contrast ratio").
double luminance(const QColor& colour) {
  const auto linear = [](int value) {
    const double c = value / 255.0;
    return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.red()) + 0.7152 * linear(colour.green()) +
         0.0722 * linear(colour.blue());
}

double contrast(const QColor& a, const QColor& b) {
  const double lighter = std::max(luminance(a), luminance(b));
  const double darker = std::min(luminance(a), luminance(b));
  return (lighter + 0.05) / (darker + 0.05);
}

constexpr double kText = 4.5;      // SC 1.4.3.
constexpr double kGraphics = 3.0;  // SC 1.4.11.

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

}  // namespace
}  // namespace swingroom
