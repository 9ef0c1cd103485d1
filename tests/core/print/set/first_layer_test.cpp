// What the bed's first layer takes of a fit: closed forms on turned parts.
#include <gtest/gtest.h>

#include "core/print/set/first_layer.h"
#include "tests/core/print/joints/lathe.h"
#include "tests/core/print/print_fixture.h"

namespace swingroom {
namespace {

/// A wide ring, which lies flat on the bed, turns on a pin of 5 between its two faces. Hole 5.4: as
/// printed 0.15 are left (pins grow by 0.05 a side, holes shrink by 0.15), and the first layer
/// takes 0.25 (common practice).
struct RingOnPin {
  double chamferMm = 0;

  Mechanism mechanism() const {
    Mechanism m;
    const PartId pin = m.addPart("pin", shapes::cylinder(2.5, -5, 15, 96));
    const double c = chamferMm;
    std::vector<Eigen::Vector2d> outline = {{2.7, c}, {2.7 + c, 0}, {20, 0},
                                            {20, 6},  {2.7 + c, 6}, {2.7, 6 - c}};
    if (c == 0) outline = {{2.7, 0}, {20, 0}, {20, 6}, {2.7, 6}};
    const PartId ring = m.addPart("ring", lathed(outline, 96));
    m.addHinge(ring, pin, Vector3d::Zero(), Vector3d::UnitZ());
    return m;
  }
};

std::vector<FirstLayerFit> fitsOnBed(PrintFixture fixture) {
  WorkMonitor monitor;
  const PrintSubject subject = fixture.subject();
  return firstLayerFits(subject, checkFits(subject, monitor), printSet(subject, {}, {}, monitor));
}

TEST(FirstLayer, TakesOfAHoleThatEndsOnTheBed) {
  const auto found = fitsOnBed(PrintFixture(RingOnPin{}.mechanism()));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].onBed, PartId{1});
  EXPECT_NEAR(found[0].takenMm, 0.25, 1e-12);
  EXPECT_NEAR(found[0].leftMm.mostMm, 0.15 - 0.25, 1e-6);
  PrintFindings findings;
  addFirstLayerFindings(found, findings);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].word, PrintWord::tightFit);
  EXPECT_EQ(findings[0].grade, PrintGrade::hint);
}

// Both are wider below and the pin is stout, so that they stand as drawn: both first layers are at
// one end of the fit.
TEST(FirstLayer, OfAPinAndAHoleThatEndTogetherBothTake) {
  Mechanism m;
  const PartId pin = m.addPart("pin", lathed({{0, 0}, {5, 0}, {5, 3}, {4, 4}, {0, 4}}, 96));
  const PartId ring = m.addPart("ring", lathed({{5.2, 0}, {20, 0}, {17, 6}, {5.2, 6}}, 96));
  m.addHinge(ring, pin, Vector3d::Zero(), Vector3d::UnitZ());
  const auto found = fitsOnBed(PrintFixture(m));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR(found[0].takenMm, 2 * 0.25, 1e-12);
}

TEST(FirstLayer, AChamferKeepsItOff) {
  EXPECT_TRUE(fitsOnBed(PrintFixture(RingOnPin{0.5}.mechanism())).empty());
}

TEST(FirstLayer, WithoutABedNothingIsTaken) {
  PrintFixture fixture(RingOnPin{}.mechanism());
  for (PartPrint& print : fixture.prints) print.process.firstLayerMm.value = 0;
  EXPECT_TRUE(fitsOnBed(fixture).empty());
}

TEST(FirstLayer, WhatIsLeftEnoughIsNoHint) {
  PrintFixture fixture(RingOnPin{}.mechanism());
  for (PartPrint& print : fixture.prints) print.process.firstLayerMm.value = 0.1;
  const auto found = fitsOnBed(fixture);
  ASSERT_EQ(found.size(), 1u);
  PrintFindings findings;
  addFirstLayerFindings(found, findings);
  EXPECT_TRUE(findings.empty());
}

}  // namespace
}  // namespace swingroom
