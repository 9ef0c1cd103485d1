#include "app/panels/way/way_axis.h"

#include <gtest/gtest.h>

namespace swingroom {
namespace {

constexpr double kExact = 1e-12;

// Closed forms throughout: x = left + instant * width; n steps have beads at k / n.

TEST(WayAxis, InstantComesBackFromItsX) {
  const WayAxis axis{230, 1178};
  for (int i = 0; i <= 1000; ++i) {
    EXPECT_NEAR(axis.instantAt(axis.xAt(i / 1000.0)), i / 1000.0, kExact);
  }
}

TEST(WayAxis, BeyondTheEndsIsTheEnd) {
  const WayAxis axis{100, 400};
  EXPECT_EQ(axis.instantAt(-50), 0);
  EXPECT_EQ(axis.instantAt(900), 1);
  EXPECT_EQ(axis.instantAt(300), 0.5);
}

TEST(SnappedInstant, SticksWithinFourPixels) {
  const WayAxis axis{100, 400};
  EXPECT_EQ(snappedInstant(axis, 204, 4), 0.25);
  EXPECT_EQ(snappedInstant(axis, 196, 4), 0.25);
  EXPECT_NEAR(snappedInstant(axis, 205, 4), 105.0 / 400, kExact);
  EXPECT_EQ(snappedInstant(axis, 103, 4), 0);
}

TEST(InstantAfter, RightGoesFromBeadToBead) {
  double instant = 0;
  for (int bead = 1; bead <= 12; ++bead) {
    instant = *instantAfter(Qt::Key_Right, Qt::NoModifier, instant, 12);
    EXPECT_NEAR(instant, bead / 12.0, kExact);
  }
  EXPECT_EQ(instantAfter(Qt::Key_Right, Qt::NoModifier, instant, 12), 1.0);
}

TEST(InstantAfter, LeftGoesFromBeadToBead) {
  double instant = 1;
  for (int bead = 8; bead >= 0; --bead) {
    instant = *instantAfter(Qt::Key_Left, Qt::NoModifier, instant, 9);
    EXPECT_NEAR(instant, bead / 9.0, kExact);
  }
  EXPECT_EQ(instantAfter(Qt::Key_Left, Qt::NoModifier, instant, 9), 0.0);
}

TEST(InstantAfter, FromWithinAStepToItsEnds) {
  EXPECT_NEAR(*instantAfter(Qt::Key_Right, Qt::NoModifier, 0.43, 6), 3.0 / 6, kExact);
  EXPECT_NEAR(*instantAfter(Qt::Key_Left, Qt::NoModifier, 0.43, 6), 2.0 / 6, kExact);
}

TEST(InstantAfter, ShiftMovesByAHundredthAndStopsAtTheEnds) {
  EXPECT_NEAR(*instantAfter(Qt::Key_Right, Qt::ShiftModifier, 0.43, 6), 0.44, kExact);
  EXPECT_NEAR(*instantAfter(Qt::Key_Left, Qt::ShiftModifier, 0.43, 6), 0.42, kExact);
  EXPECT_EQ(instantAfter(Qt::Key_Left, Qt::ShiftModifier, 0.004, 6), 0.0);
  EXPECT_EQ(instantAfter(Qt::Key_Right, Qt::ShiftModifier, 0.996, 6), 1.0);
}

TEST(InstantAfter, HomeAndEndAreTheStationsAndOtherKeysMeanNothing) {
  EXPECT_EQ(instantAfter(Qt::Key_Home, Qt::NoModifier, 0.4, 6), 0.0);
  EXPECT_EQ(instantAfter(Qt::Key_End, Qt::NoModifier, 0.4, 6), 1.0);
  EXPECT_FALSE(instantAfter(Qt::Key_Up, Qt::NoModifier, 0.4, 6));
  EXPECT_FALSE(instantAfter(Qt::Key_Left, Qt::AltModifier, 0.4, 6));
}

TEST(StepAt, ABeadBeginsItsStepAndTheEndIsTheLast) {
  EXPECT_EQ(stepAt(0, 6), 0u);
  EXPECT_EQ(stepAt(0.43, 6), 2u);
  for (std::size_t k = 0; k < 12; ++k) EXPECT_EQ(stepAt(static_cast<double>(k) / 12, 12), k);
  EXPECT_EQ(stepAt(1, 12), 11u);
}

}  // namespace
}  // namespace swingroom
