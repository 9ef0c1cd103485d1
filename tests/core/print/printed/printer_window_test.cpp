// The window of printers: straight limits, closed forms.
#include <gtest/gtest.h>

#include <cmath>

#include "core/print/printed/printer_window.h"

namespace swingroom {
namespace {

/// A pin of clearance c on the diameter turns while s c - 4 g >= 0: each of its four faces, two of
/// the pin and two of the hole, comes g nearer.
PrinterLimit turning(double clearanceMm) {
  return {-4, clearanceMm, 0, "pin turns"};
}

double areaOfRegion(const std::vector<Eigen::Vector2d>& region) {
  double twice = 0;
  for (std::size_t i = 0; i < region.size(); ++i) {
    const auto& p = region[i];
    const auto& q = region[(i + 1) % region.size()];
    twice += p.x() * q.y() - p.y() * q.x();
  }
  return twice / 2;
}

TEST(PrinterWindow, WithoutLimitsItIsAllThatWasLookedAt) {
  const PrinterWindow window = printerWindow({}, 0.05);
  EXPECT_NEAR(areaOfRegion(window.region), 0.4 * 0.4, 1e-12);
  EXPECT_EQ(window.growthMm.toLimit, "");
}

TEST(PrinterWindow, APinOf04TurnsUpToATenthASide) {
  const PrinterWindow window = printerWindow({turning(0.4)}, 0.05);
  EXPECT_NEAR(window.growthMm.to, 0.1, 1e-12);
  EXPECT_EQ(window.growthMm.toLimit, "pin turns");
  EXPECT_DOUBLE_EQ(window.growthMm.from, kLeastGrowthMm);
  // At 0.05 a side: s >= 4 * 0.05 / 0.4 = 0.5, below what is looked at.
  EXPECT_DOUBLE_EQ(window.scale.from, kLeastScale);
  // Trapezium: g from -0.1 to 0.1 s, s from 0.8 to 1.2: the integral of 0.1 + 0.1 s.
  EXPECT_NEAR(areaOfRegion(window.region), 0.1 * 0.4 + 0.05 * (1.44 - 0.64), 1e-12);
}

TEST(PrinterWindow, ABedLimitsTheScale) {
  const PrinterLimit bed{0, -200, 220, "hull fits the bed"};
  const PrinterWindow window = printerWindow({turning(0.4), bed}, 0.08);
  EXPECT_NEAR(window.scale.to, 1.1, 1e-12);
  EXPECT_EQ(window.scale.toLimit, "hull fits the bed");
  EXPECT_NEAR(window.scale.from, 0.8, 1e-12);
}

TEST(PrinterWindow, WhatNoPrinterKeepsHasNoRegion) {
  const PrinterWindow window =
      printerWindow({turning(0.4), {4, 0, -0.5, "wall is thick enough"}}, 0.05);
  EXPECT_TRUE(window.growthMm.empty) << "g <= 0.1 and g >= 0.125";
  EXPECT_TRUE(window.region.empty() || std::abs(areaOfRegion(window.region)) < 1e-12)
      << "at scale 1.2: g <= 0.12 and g >= 0.125";
}

}  // namespace
}  // namespace swingroom
