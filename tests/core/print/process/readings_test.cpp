// Closed forms: a pin of d + 2 g in a hole of d + c - s leaves c - 2 g - s on the diameter; a
// tongue of t + 2 g in a slot of t + c - 2 i leaves c - 2 g - 2 i in all.
#include "core/print/process/readings.h"

#include <gtest/gtest.h>

namespace swingroom {
namespace {

const PrintProcess& usual() {
  return builtInProcesses()[0];
}

TestPieceWish usualPiece() {
  return testPieceWish(usual());
}

/// What a hand would feel of a printer with this growth and shrink.
TestReadings feltOf(double outside, double inside, double shrink, double flopsAbove = 10) {
  TestReadings readings;
  for (const double c : usualPiece().clearancesMm) {
    const double round = c - 2 * outside - shrink, flat = c - 2 * outside - 2 * inside;
    readings.pins.push_back({c, round <= 0            ? FeltFit::stuck
                                : round <= flopsAbove ? FeltFit::free
                                                      : FeltFit::flops});
    readings.tongues.push_back({c, flat <= 0 ? FeltFit::stuck : FeltFit::free});
  }
  return readings;
}

ReadProcess appliedOf(const TestReadings& readings) {
  const auto read = readingsApplied(usual(), usualPiece(), readings);
  for (const Problem& problem : read.problems()) ADD_FAILURE() << toText(problem);
  return read ? *read : ReadProcess{};
}

std::string problemOf(const TestReadings& readings) {
  const auto read = readingsApplied(usual(), usualPiece(), readings);
  return read ? "" : toText(read.problems().front());
}

const ReadFigure* figureOf(const ReadProcess& read, Sourced PrintProcess::*figure) {
  for (const ReadFigure& each : read.figures) {
    if (each.figure == figure) return &each;
  }
  return nullptr;
}

TEST(Readings, WhatTurnedBracketsGrowthAndShrinkOfThePrinterThatMadeIt) {
  const double outside = 0.04, inside = 0.04, shrink = 0.17;
  const ReadProcess read = appliedOf(feltOf(outside, inside, shrink, 0.4));
  // 2 g + s = 0.25: stuck at 0.2, free at 0.3; flops where more than 0.4 is left: 0.65, so at 0.7.
  EXPECT_EQ(read.process.leastPinClearanceMm.value, 0.3);
  EXPECT_EQ(read.process.leastPinClearanceMm.kind, FigureSource::measured);
  EXPECT_EQ(read.process.mostPinClearanceMm.value, 0.6);
  // 2 g + 2 i = 0.16: stuck at 0.1, free at 0.2.
  EXPECT_DOUBLE_EQ(read.process.leastGapMm.value, 0.1);
  for (const auto& [figure, truth] : {std::pair{&PrintProcess::growthOutsideMm, outside},
                                      std::pair{&PrintProcess::growthInsideMm, inside}}) {
    const ReadFigure* found = figureOf(read, figure);
    ASSERT_TRUE(found);
    EXPECT_LE(found->lower, truth);
    EXPECT_GE(found->upper, truth);
    EXPECT_DOUBLE_EQ((read.process.*figure).value, (found->lower + found->upper) / 2);
  }
  // Pin and shrink together, with the growth that the tongue gave: 0.25 - 2 * 0.0375.
  EXPECT_DOUBLE_EQ(read.process.holeShrinkMm.value, 0.25 - 0.075);
  EXPECT_TRUE(read.notes.empty());
  EXPECT_EQ(read.process.leastPinClearanceMm.source, "test piece: pin stuck at 0.20, free at 0.30");
}

TEST(Readings, CallipersWinOverWhatWasFelt) {
  TestReadings readings = feltOf(0.05, 0.05, 0.15);
  readings.pinMm = 5.08;
  readings.hole = MeasuredOpening{0.4, 5.22};
  readings.slot = MeasuredOpening{0.5, 3.44};
  const ReadProcess read = appliedOf(readings);
  EXPECT_NEAR(read.process.growthOutsideMm.value, 0.04, 1e-12);
  EXPECT_NEAR(read.process.holeShrinkMm.value, 0.18, 1e-12);
  EXPECT_NEAR(read.process.growthInsideMm.value, 0.03, 1e-12);
  EXPECT_EQ(read.process.holeShrinkMm.source, "callipers: hole 5.22 for 5.40");
  readings.tongueMm = 3.12;
  const ReadProcess both = appliedOf(readings);
  EXPECT_NEAR(both.process.growthOutsideMm.value, 0.05, 1e-12);
  EXPECT_NEAR(figureOf(both, &PrintProcess::growthOutsideMm)->lower, 0.04, 1e-12);
  EXPECT_NEAR(figureOf(both, &PrintProcess::growthOutsideMm)->upper, 0.06, 1e-12);
}

TEST(Readings, WhatIsNotSaidIsNotChanged) {
  const ReadProcess read = appliedOf({});
  EXPECT_EQ(read.process, usual());
  EXPECT_TRUE(read.figures.empty());
}

TEST(Readings, OneSidedReadingsSaySo) {
  TestReadings free, stuck;
  for (const double c : usualPiece().clearancesMm) {
    free.pins.push_back({c, FeltFit::free});
    stuck.pins.push_back({c, FeltFit::stuck});
  }
  const ReadProcess read = appliedOf(free);
  EXPECT_EQ(read.process.leastPinClearanceMm.value, 0.1);
  EXPECT_FALSE(figureOf(read, &PrintProcess::leastPinClearanceMm)->lowerKnown);
  EXPECT_EQ(read.process.holeShrinkMm, usual().holeShrinkMm);
  ASSERT_EQ(read.notes.size(), 1u);
  const ReadProcess none = appliedOf(stuck);
  EXPECT_EQ(none.process, usual());
  ASSERT_EQ(none.notes.size(), 1u);
  EXPECT_EQ(none.notes[0],
            "the pin is stuck everywhere: more than 0.80 mm on the diameter is needed");
}

TEST(Readings, ContradictionsAreToldInOneSentence) {
  TestReadings readings;
  readings.pins = {{0.3, FeltFit::stuck}, {0.2, FeltFit::free}, {0.4, FeltFit::free}};
  EXPECT_EQ(problemOf(readings),
            "hole 0.30: the pin is stuck here but turns in the tighter one of 0.20 mm on the "
            "diameter (try both again)");
  readings.pins = {{0.3, FeltFit::flops}, {0.4, FeltFit::free}};
  EXPECT_EQ(problemOf(readings),
            "hole 0.40: the pin does not flop here but flops in the tighter one of 0.30 mm on the "
            "diameter (try both again)");
  readings.pins = {{0.35, FeltFit::free}};
  EXPECT_EQ(problemOf(readings), "hole 0.35: is not on this test piece");
  readings.pins = {{0.3, FeltFit::free}, {0.3, FeltFit::free}};
  EXPECT_EQ(problemOf(readings), "hole 0.30: is given twice (keep one of them)");
  readings = {};
  readings.pinMm = 50.8;
  EXPECT_EQ(problemOf(readings),
            "pin: measures 50.80 mm where 5.00 mm was modelled (measure it again)");
}

}  // namespace
}  // namespace swingroom
