#include <gtest/gtest.h>

#include <cmath>

#include "core/print/cautions/cautions_check.h"
#include "tests/core/print/print_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

std::vector<FingerGap> fingersOf(const Mechanism& mechanism, FingerRods rods = {}) {
  const PrintFixture fixture(mechanism);
  WorkMonitor monitor;
  return fingerGaps(fixture.subject(), rods, monitor);
}

/// Two plates that face each other `from` apart, of which one goes to `to`.
Mechanism plates(double from, double to) {
  Mechanism two;
  const PartId low = two.addPart("low", shapes::box({0, 0, 0}, {40, 30, 3}));
  const PartId high = two.addPart("high", shapes::box({0, 0, 3 + from}, {40, 30, 6 + from}));
  const JointId slide = two.addSlide(high, low, kZ);
  two.addStep(slide, {to - from, 0, 0});
  return two;
}

// Check values 7.3.
TEST(FingerGaps, Vectors) {
  const std::pair<double, bool> vectors[] = {
      {4.99, false}, {5.00, true}, {8, true}, {11.99, true}, {12.00, false}};
  for (const auto& [gap, warns] : vectors) {
    EXPECT_EQ(catchesFinger(gap), warns) << gap;
    // Plates that slide along each other at that gap.
    Mechanism sliding;
    const PartId low = sliding.addPart("low", shapes::box({0, 0, 0}, {40, 30, 3}));
    const PartId high = sliding.addPart("high", shapes::box({0, 0, 3 + gap}, {40, 30, 6 + gap}));
    sliding.addStep(sliding.addSlide(high, low, Vector3d::UnitX()), {6, 0, 0});
    EXPECT_EQ(!fingersOf(sliding).empty(), warns) << gap;
  }
  EXPECT_TRUE(catchesFinger(12, {5, 13}));  // The pair of ASTM F963, from memory.
}

// Outside of 5 to 12 at both ends, but through it on the way: evenly from 1 to 21 mm, so from a
// fifth to 11/20 of the way.
TEST(FingerGaps, PassingThroughOnTheWayWarns) {
  const auto found = fingersOf(plates(1, 21));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].place, FingerPlace::between);
  EXPECT_NEAR(found[0].from, 0.2, 1e-5);
  EXPECT_NEAR(found[0].to, 0.55, 1e-5);
  EXPECT_NEAR(found[0].leastMm, 1, 1e-9);
  EXPECT_GT(found[0].spots, 50u);
  EXPECT_TRUE(fingersOf(plates(0.4, 4.9)).empty());
  EXPECT_TRUE(fingersOf(plates(12.1, 40)).empty());
}

TEST(FingerGaps, WhatDoesNotMoveIsNoOpening) {
  EXPECT_TRUE(fingersOf(plates(8, 8)).empty());
}

// Check values 7.3, closed form: leaves 40 long, 2 x 40 sin(angle / 2), warn from 7.1666 to 17.2535
// degrees.
TEST(FingerGaps, HingeLeafPassesThrough) {
  Mechanism book;
  const PartId still = book.addPart("still", shapes::box({0, 0, -3}, {40, 30, 0}));
  const PartId leaf = book.addPart("leaf", shapes::box({0, 0, 0}, {40, 30, 3}));
  const JointId hinge = book.addHinge(leaf, still, kOrigin, -Vector3d::UnitY());
  book.addStep(hinge, deg(180));
  const auto found = fingersOf(book);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].place, FingerPlace::hingeMouth);
  EXPECT_NEAR(found[0].from * 180, 7.1666, 0.01);
  EXPECT_NEAR(found[0].to * 180, 17.2535, 0.01);
  EXPECT_NEAR(found[0].at_W.y(), 15, 15.1);
  EXPECT_NEAR(found[0].leastMm, 0, 1e-9);
  EXPECT_NEAR(found[0].mostMm, kFingerLookMm, 1e-9);
}

// Knuckles 8 mm apart along the axis stay so, whatever the angle.
TEST(FingerGaps, AtTheHingeLine) {
  const auto hinged = [](double gap) {
    Mechanism pair;
    const PartId fork = pair.addPart("fork", shapes::box({-6, 0, -6}, {6, 10, 6}));
    const PartId eye = pair.addPart("eye", shapes::box({-6, 10 + gap, -6}, {6, 30, 6}));
    pair.addStep(pair.addHinge(eye, fork, kOrigin, Vector3d::UnitY()), deg(30));
    return pair;
  };
  const auto found = fingersOf(hinged(8));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].place, FingerPlace::hingeLine);
  EXPECT_NEAR(found[0].leastMm, 8, 1e-6);
  EXPECT_TRUE(fingersOf(hinged(0.4)).empty());
  EXPECT_TRUE(fingersOf(hinged(13)).empty());
}

// What a third part fills, and what is closed all round, lets no finger in.
TEST(FingerGaps, FilledAndClosedOpeningsAreNone) {
  Mechanism filled = plates(8, 9);
  filled.addPart("filling", shapes::box({-1, -1, 3.2}, {41, 31, 10.8}));
  EXPECT_TRUE(fingersOf(filled).empty());
  Mechanism closed = plates(8, 9);
  closed.addPart("case",
                 shapes::joined({shapes::box({-20, -20, -20}, {60, 50, 40}),
                                 shapes::reversed(shapes::box({-10, -10, -10}, {50, 40, 30}))}));
  EXPECT_TRUE(fingersOf(closed).empty());
}

TEST(FingerGaps, OneThreadAndFourGiveTheSame) {
  const PrintFixture fixture(plates(1, 21));
  WorkMonitor monitor;
  PrintSubject one = fixture.subject(), four = fixture.subject();
  four.threads = 4;
  EXPECT_EQ(checkCautions(one, monitor), checkCautions(four, monitor));
}

// A wedge of 30 degrees and a box: edges by the closed form, 3-4-5 has one of 36.87 degrees.
TEST(SharpEdges, WedgeAndBox) {
  EXPECT_EQ(sharpEdges(shapes::box(kOrigin, {10, 10, 10})).edges, 0u);
  const SharpEdges wedge = sharpEdges(shapes::prism({{0, 0}, {40, 0}, {40, 30}}, 0, 25));
  EXPECT_EQ(wedge.edges, 2u);  // 36.87 and 53.13 degrees
  EXPECT_NEAR(wedge.lengthMm, 50, 1e-9);
  EXPECT_NEAR(degFromRad(wedge.leastRad), 36.8698976, 1e-6);
  ASSERT_TRUE(wedge.sharpest_P);
  EXPECT_NEAR((*wedge.sharpest_P - Vector3d(0, 0, 12.5)).norm(), 0, 1e-9);
  EXPECT_EQ(sharpEdges(shapes::prism({{0, 0}, {40, 0}, {20, 40}}, 0, 25)).edges, 1u);
}

// A notch is not sharp, a needle's tip is.
TEST(SharpEdges, NotchesAreNotAndTipsAre) {
  const TriangleMesh notched =
      shapes::prism({{20, 15}, {0, 30}, {0, 0}, {50, 0}, {50, 30}, {40, 30}}, 0, 10);
  for (const TriangleMesh& mesh : {notched}) {
    const SharpEdges sharp = sharpEdges(mesh);
    if (sharp.sharpest_P)
      EXPECT_GT((sharp.sharpest_P->head<2>() - Eigen::Vector2d(20, 15)).norm(), 1);
  }
  TriangleMesh spike;
  spike.vertices = {{0, 0, 30}, {3, 0, 0}, {-2, 3, 0}, {-2, -3, 0}};
  spike.triangles = {{0, 1, 2}, {0, 2, 3}, {0, 3, 1}, {1, 3, 2}};
  EXPECT_EQ(sharpEdges(spike).points, 1u);
  EXPECT_EQ(sharpEdges(shapes::box(kOrigin, {10, 10, 10})).points, 0u);
}

TEST(Cautions, HintsOnlyAndNotesThatSayWhatWasNotVerified) {
  const PrintFixture fixture(plates(1, 21));
  WorkMonitor monitor;
  const CautionsResult result = checkCautions(fixture.subject(), monitor);
  PrintFindings findings;
  addCautionFindings(fixture.subject(), result, findings);
  ASSERT_FALSE(findings.empty());
  for (const PrintFinding& finding : findings) EXPECT_EQ(finding.grade, PrintGrade::hint);
  bool laboratories = false;
  for (const std::string& note : cautionNotes()) {
    laboratories = laboratories || note.find("qualified laboratories") != std::string::npos;
    EXPECT_EQ(note.find("safe"), std::string::npos);
    EXPECT_EQ(note.find("conform"), std::string::npos);
  }
  EXPECT_TRUE(laboratories);
}

}  // namespace
}  // namespace swingroom
