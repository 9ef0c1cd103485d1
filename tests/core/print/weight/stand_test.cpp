#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/print/weight/weight_check.h"
#include "tests/core/print/print_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

struct StandCase {
  explicit StandCase(const Mechanism& mechanism) : fixture(mechanism) {
    for (PartPrint& print : fixture.prints) print.process.infill.value = 1;
  }
  FigureStand stand() {
    WorkMonitor monitor;
    const std::vector<JointFriction> friction(fixture.assembly.joints().size());
    result = checkWeight(fixture.subject(), friction, monitor);
    return result.modes.front().standing;
  }
  PrintFindings findings() {
    stand();
    PrintFindings found;
    addWeightFindings(fixture.subject(), result, found);
    return found;
  }

  PrintFixture fixture;
  WeightResult result;
};

FigureStand standOf(const TriangleMesh& mesh) {
  Mechanism one;
  one.addPart("block", mesh);
  return StandCase(one).stand();
}

TriangleMesh block(double wide, double high) {
  return shapes::box({-wide / 2, -100, 0}, {wide / 2, 100, high});
}

// Check values B-1 to B-3, closed forms.
TEST(FigureStand, BlocksTipAtTheirDiagonal) {
  const std::pair<double, double> sizes[] = {{60, 80}, {40, 40}, {30, 90}};
  const double expectedDeg[] = {36.8698976, 45, 18.4349488};
  for (int i = 0; i < 3; ++i) {
    const FigureStand stand = standOf(block(sizes[i].first, sizes[i].second));
    EXPECT_EQ(stand.kind, StandKind::stands);
    EXPECT_NEAR(degFromRad(stand.leastTipRad), expectedDeg[i], 1e-6);
    EXPECT_NEAR(std::abs(stand.falls_W.x()), 1, 1e-9);
    EXPECT_NEAR(stand.heightMm, sizes[i].second / 2, 1e-9);
  }
}

// B-4: a prism over the three feet has its mass over their middle.
TEST(FigureStand, ThreeFeetTipOverTheNearestEdge) {
  const FigureStand stand = standOf(shapes::prism({{0, 0}, {90, 0}, {0, 60}}, 0, 100));
  ASSERT_EQ(stand.edges.size(), 3u);
  std::vector<double> distances, angles;
  for (const TipEdge& edge : stand.edges) {
    distances.push_back(edge.distanceMm);
    angles.push_back(degFromRad(edge.tipRad));
  }
  std::sort(distances.begin(), distances.end());
  std::sort(angles.begin(), angles.end());
  const double expectedMm[] = {16.6410059, 20, 30};
  const double expectedDeg[] = {18.4084802, 21.8014095, 30.9637565};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(distances[i], expectedMm[i], 1e-6);
    EXPECT_NEAR(angles[i], expectedDeg[i], 1e-6);
  }
  EXPECT_NEAR(stand.marginMm, 16.6410059, 1e-6);
  EXPECT_GT(stand.falls_W.x(), 0);  // Away from the long edge.
  EXPECT_GT(stand.falls_W.y(), 0);
}

// B-5.
TEST(FigureStand, RegularFeet) {
  const double expectedDeg[] = {21.8014, 29.4962, 32.9115, 34.7150};
  for (int n = 3; n <= 6; ++n) {
    const FigureStand stand = standOf(shapes::cylinder(40, 0, 100, n));
    EXPECT_NEAR(degFromRad(stand.leastTipRad), expectedDeg[n - 3], 1e-4);
  }
}

Mechanism overhanging() {
  Mechanism two;
  const PartId base = two.addPart("base", shapes::box({-10, -10, 0}, {10, 10, 10}));
  const PartId arm = two.addPart("arm", shapes::box({10, -10, 0.5}, {70, 10, 10.5}));
  two.addFixed(arm, base);
  return two;
}

// B-6; closed form: 4000 mm3 at 0 and 12000 mm3 at 40 have their middle at 30, 20 mm outside.
TEST(FigureStand, MassOutsideOfWhatItStandsOnFallsThatWay) {
  StandCase falling(overhanging());
  const FigureStand stand = falling.stand();
  EXPECT_EQ(stand.kind, StandKind::falls);
  EXPECT_NEAR(stand.marginMm, -20, 1e-9);
  EXPECT_LT(stand.leastTipRad, 0);
  EXPECT_NEAR(stand.falls_W.x(), 1, 1e-9);
  const PrintFindings found = falling.findings();
  ASSERT_EQ(found.size(), 2u);  // Both modes; the fixed joint is not judged.
  EXPECT_EQ(found[0].word, PrintWord::fallsOver);
  EXPECT_EQ(found[0].grade, PrintGrade::finding);
  EXPECT_NE(found[0].sentence.find("towards +x"), std::string::npos) << found[0].sentence;
  EXPECT_NE(found[0].sentence.find("20.00 mm"), std::string::npos) << found[0].sentence;
}

// The same, placed by a joint to the ground, before a board of 200 x 200 that has none: the board
// neither holds it up nor weighs with it. Without the joint to the ground the board is a part of
// what stands still.
TEST(FigureStand, WhatHasNoJointIsNotWhatAPlacedFigureStandsOn) {
  for (const bool placed : {true, false}) {
    Mechanism with = overhanging();
    with.addPart("board", shapes::box({-100, -100, 0}, {100, 100, 0.4}));
    if (placed) with.addSlide(PartId{0}, std::nullopt, Vector3d::UnitZ());
    const FigureStand stand = StandCase(with).stand();
    EXPECT_EQ(stand.kind, placed ? StandKind::falls : StandKind::stands);
    if (!placed) continue;
    EXPECT_NEAR(stand.marginMm, -20, 1e-9);
    EXPECT_EQ(stand.on, std::vector<PartId>{PartId{0}});
  }
}

// Feet up to a layer (0.2 mm) higher than the lowest point are on the floor; a foot that is 0.3 mm
// higher is not.
TEST(FigureStand, FeetWithinALayerOfTheLowestPointStand) {
  const auto stool = [](double short_) {
    return shapes::joined({shapes::box({0, 0, 0}, {5, 5, 10}), shapes::box({40, 0, 0}, {45, 5, 10}),
                           shapes::box({0, 40, short_}, {5, 45, 10}),
                           shapes::box({0, 0, 10.1}, {45, 45, 20})});
  };
  EXPECT_EQ(standOf(stool(0.15)).kind, StandKind::stands);
  EXPECT_EQ(standOf(stool(0.3)).kind, StandKind::falls);
}

TEST(FigureStand, OneEdgeOrPointIsNoStand) {
  const Pose onEdge = rotationAbout(kOrigin, Vector3d::UnitY(), radFromDeg(45));
  EXPECT_EQ(standOf(shapes::moved(shapes::box({-5, -5, -5}, {5, 5, 5}), onEdge)).kind,
            StandKind::onEdge);
  const Vector3d axis = Vector3d(1, -1, 0).normalized();
  const Pose onCorner = rotationAbout(kOrigin, axis, std::acos(1 / std::sqrt(3.0)));
  EXPECT_EQ(standOf(shapes::moved(shapes::box({-5, -5, -5}, {5, 5, 5}), onCorner)).kind,
            StandKind::onPoint);
}

TEST(FigureStand, UpIsWhatTheFileSays) {
  Mechanism one;
  one.addPart("block", shapes::box({0, 0, 0}, {80, 200, 60}));
  StandCase lying(one);
  PrintSubject subject = lying.fixture.subject();
  subject.up_W = Vector3d::UnitX();
  WorkMonitor monitor;
  const WeightResult result = checkWeight(subject, {}, monitor);
  EXPECT_NEAR(degFromRad(result.modes.front().standing.leastTipRad), 36.8698976, 1e-6);  // B-1
}

// B-1 to B-5 pass the usual slope of 10 degrees (from memory); 9 wide and 90 high does not:
// atan(9 / 90) = 5.7 degrees.
TEST(FigureStand, NarrowThingsNearlyFall) {
  Mechanism wide, narrow;
  wide.addPart("block", block(30, 90));
  narrow.addPart("block", block(9, 90));
  EXPECT_TRUE(StandCase(wide).findings().empty());
  const PrintFindings found = StandCase(narrow).findings();
  ASSERT_EQ(found.size(), 2u);  // Both modes.
  EXPECT_EQ(found[0].word, PrintWord::nearlyFalls);
  EXPECT_EQ(found[0].grade, PrintGrade::hint);
  EXPECT_NE(found[0].sentence.find("5.7 degrees"), std::string::npos) << found[0].sentence;
  EXPECT_EQ(found[0].unit, "deg");
  EXPECT_LE(found[0].lower, degFromRad(std::atan(9.0 / 90)) + 1e-9);
  EXPECT_GE(found[0].upper, degFromRad(std::atan(9.0 / 90)) - 1e-9);
  EXPECT_EQ(found[0].needed, 10);
}

}  // namespace
}  // namespace swingroom
