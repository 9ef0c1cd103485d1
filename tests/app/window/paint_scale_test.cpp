#include <gtest/gtest.h>

#include <cmath>

#include "app/window/paint/paint_legend.h"
#include "app/window/paint/paint_scales.h"
#include "tests/app/panels/wcag.h"

// Scales of painted surfaces, and what the legend says of them.
namespace swingroom {
namespace {

class PaintScales : public ::testing::TestWithParam<bool> {
 protected:
  const Theme theme_ = GetParam() ? darkTheme() : lightTheme();
  const double sign_ = GetParam() ? -1 : 1;  ///< What stands out is light on a dark ground.
};

TEST_P(PaintScales, RoomReadsByLightnessAlone) {
  const PaintScale scale = roomScale(theme_, 5);
  double before = sign_ * luminance(colourAt(scale, 0));
  for (double mm = 0.5; mm <= 4; mm += 0.25) {
    const double now = sign_ * luminance(colourAt(scale, mm));
    EXPECT_GT(now, before) << mm;
    before = now;
  }
  EXPECT_EQ(scale.stops.back().mm, 5);
  EXPECT_LE(scale.levelsMm.size(), kMostLevels);
}

TEST_P(PaintScales, WhereThereIsNoRoomIsToldFromLittleRoom) {
  const PaintScale scale = roomScale(theme_, 5);
  EXPECT_GT(std::abs(luminance(scale.broken) - luminance(colourAt(scale, 0))), 0.1);
}

TEST_P(PaintScales, WhatMovedReadsByLightnessOnBothSides) {
  const PaintScale scale = movedScale(theme_, 1);
  for (const double side : {-1.0, 1.0}) {
    for (double share = 0.1; share < 0.95; share += 0.1) {
      const double near = luminance(colourAt(scale, side * share)),
                   far = luminance(colourAt(scale, side * (share + 0.1)));
      EXPECT_GT(sign_ * near, sign_ * far) << side * share;
    }
  }
}

// look.md: orange and vermillion only below what is needed, blue above it.
TEST_P(PaintScales, WallsAreWarmOnlyBelowWhatPrintsAndFadeBeyondIt) {
  constexpr double kLeastMm = 0.8, kFreeMm = 1.2, kMostMm = 6;
  const PaintScale scale = wallScale(theme_, kLeastMm, kFreeMm, kMostMm);
  const auto isWarm = [&](double mm) {
    const QColor colour = colourAt(scale, mm);
    return colour.red() > colour.blue();
  };
  for (double mm = 0.1; mm < kMostMm; mm += 0.1) {
    if (std::abs(mm - kFreeMm) > 0.01) EXPECT_EQ(isWarm(mm), mm < kFreeMm) << mm;
  }
  EXPECT_FALSE(isWarm(kFreeMm)) << "as thick as it has to be";
  EXPECT_NE(colourAt(scale, 0.7), colourAt(scale, 0.9)) << "what prints only if it is held";
  EXPECT_EQ(scale.levelsMm, (std::vector{kLeastMm, kFreeMm}));
  double before = 2;
  for (double mm = kFreeMm; mm <= kMostMm; mm += 0.2) {
    const double now = colourAt(scale, mm).hsvSaturationF();
    EXPECT_LT(now, before) << mm;
    before = now;
  }
  EXPECT_LT(before, 0.3) << "quiet where it is thick";
}

TEST_P(PaintScales, WhereFreeWallsPrintAsThinAsHeldOnesThereIsNoOrange) {
  const PaintScale scale = wallScale(theme_, 0.8, 0.8, 6);
  EXPECT_EQ(scale.levelsMm, (std::vector{0.8}));
  const QColor least = colourAt(scale, 0.8);
  EXPECT_GT(least.blue(), least.red());
}

INSTANTIATE_TEST_SUITE_P(LightAndDark, PaintScales, ::testing::Bool());

TEST(PaintScale, ReachIsAPlainFigureAndBothBranchesAreAsLong) {
  for (const auto& [mm, plain] :
       {std::pair(0.03, 0.05), {0.05, 0.05}, {0.11, 0.2}, {0.7, 1.0}, {2.1, 5.0}, {20.0, 20.0}}) {
    EXPECT_NEAR(plainFigureAbove(mm), plain, 1e-12);
    const PaintScale scale = movedScale(lightTheme(), mm);
    EXPECT_NEAR(scale.stops.front().mm, -plain, 1e-12);
    EXPECT_NEAR(scale.stops.back().mm, plain, 1e-12);
  }
}

TEST(PaintLegend, SaysItsFiguresAndStatesInWordsToo) {
  QWidget view;
  view.resize(400, 400);
  PaintLegend legend(view);
  EXPECT_TRUE(legend.isHidden());
  legend.setScale(roomScale(lightTheme(), 5), {"room, mm", "or more", "", "no room", "joint zone"});
  EXPECT_FALSE(legend.isHidden());
  EXPECT_EQ(legend.accessibleDescription(),
            "room, mm, 5 or more, 4, 3, 2, 1, 0.5, 0, no room, joint zone");
  EXPECT_TRUE(view.rect().contains(legend.geometry()));
  legend.clear();
  EXPECT_TRUE(legend.isHidden());
}

}  // namespace
}  // namespace swingroom
