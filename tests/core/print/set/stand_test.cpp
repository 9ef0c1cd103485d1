// Closed forms on boxes and plates. 45 degrees: design rules sheets of two printing services (check
// values, section 8); that a face just at the angle is acceptable is its definition there.
#include "core/print/set/stand.h"

#include <gtest/gtest.h>

#include "core/print/process/plate_mesh.h"
#include "core/print/set/hollows.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

StandShape standShapeFor(const TriangleMesh& mesh) {
  return standShapeOf(std::make_shared<const TriangleMesh>(mesh));
}

Eigen::Matrix3d tiltedBy(double degrees) {
  return rotationAbout(kOrigin, Vector3d::UnitX(), radFromDeg(degrees)).linear();
}

const PrintProcess& standFilament() {
  return builtInProcesses()[0];
}
const PrintProcess& standResin() {
  return builtInProcesses()[3];
}

// A box turned about x by a: its bottom looks a away from straight down, one side 90 - a.
TEST(BedStand, AFaceAt44DegreesNeedsSupportOneAt46Not) {
  const StandShape box = standShapeFor(shapes::box({0, 0, 0}, {10, 20, 30}));
  EXPECT_NEAR(standAt(box, standFilament(), tiltedBy(44)).supportMm2, 10 * 20, 1e-9);
  EXPECT_NEAR(standAt(box, standFilament(), tiltedBy(46)).supportMm2, 10 * 30, 1e-9);
  EXPECT_EQ(standAt(box, standFilament(), tiltedBy(45)).supportMm2, 0);
  // Both then print just so: rough.
  EXPECT_NEAR(standAt(box, standFilament(), tiltedBy(45)).roughMm2, 10 * 50, 1e-9);
  const BedStand flat = standAt(box, standFilament(), tiltedBy(0));
  EXPECT_NEAR(flat.contactMm2, 10 * 20, 1e-9);
  EXPECT_FALSE(flat.needsSupport());
  // Resin: always; powder: never.
  EXPECT_NEAR(standAt(box, standResin(), tiltedBy(46)).supportMm2, 10 * 50, 1e-9);
  EXPECT_EQ(standAt(box, builtInProcesses()[4], tiltedBy(44)).supportMm2, 0);
}

/// A plate of 40 x 20 x 6 with a slot through it, `span` along x; put on its long edge, the slot's
/// upper face spans it.
StandShape slottedPlate(double span) {
  PlateGrid grid;
  grid.xs = {0, 5, 35, 40};
  grid.ys = {0, 5, 15, 20};
  grid.thicknessMm = 6;
  grid.chamferMm = 0.5;
  PlateOpening slot{1, 2, 1, 2, {}, {}};
  const double l = 20 - span / 2, r = 20 + span / 2;
  slot.narrow = {{l, 7}, {r, 7}, {r, 13}, {l, 13}};
  slot.wide = {{l - 0.5, 6.5}, {r + 0.5, 6.5}, {r + 0.5, 13.5}, {l - 0.5, 13.5}};
  grid.openings = {slot};
  return standShapeFor(meshOf(grid));
}

// The service's bridge is 10 mm. The chamfers' faces are at 45 degrees and need nothing.
TEST(BedStand, AFaceThatIsHeldAtBothEndsIsABridgeUpToItsSpan) {
  const Eigen::Matrix3d onEdge = tiltedBy(90);
  const BedStand narrow = standAt(slottedPlate(9), standFilament(), onEdge);
  EXPECT_NEAR(narrow.bridgedMm2, 9 * 5, 1e-9);
  EXPECT_EQ(narrow.supportMm2, 0);
  EXPECT_NEAR(narrow.contactMm2, 40 * 6, 1e-9);
  const BedStand wide = standAt(slottedPlate(12), standFilament(), onEdge);
  EXPECT_EQ(wide.bridgedMm2, 0);
  EXPECT_NEAR(wide.supportMm2, 12 * 5, 1e-9);
}

// A step: its underside of 8 x 10 is held at one end only, however short.
TEST(BedStand, AFaceThatIsHeldAtOneEndIsNoBridge) {
  const TriangleMesh step =
      shapes::prism({{4, 6}, {12, 6}, {12, 10}, {0, 10}, {0, 0}, {4, 0}}, 0, 10);
  const BedStand stand = standAt(standShapeFor(step), standFilament(), tiltedBy(90));
  EXPECT_NEAR(stand.contactMm2, 4 * 10, 1e-9);
  EXPECT_NEAR(stand.supportMm2, 8 * 10, 1e-9);
  EXPECT_EQ(stand.bridgedMm2, 0);
}

TEST(BedStand, APlateLiesFlatAndFitsTheBedTurned) {
  WorkMonitor monitor;
  PrintProcess process = standFilament();
  process.bedMm = {250, 250, 20};
  const StandShape plate = standShapeFor(shapes::box({0, 0, 0}, {300, 10, 50}));
  const auto stands = standsOf(plate, process, 3, monitor);
  ASSERT_FALSE(stands.empty());
  EXPECT_TRUE(stands.front().fits);
  EXPECT_NEAR(stands.front().sizeMm.z(), 10, 1e-9);
  EXPECT_NEAR(stands.front().contactMm2, 300 * 50, 1e-6);
  EXPECT_LE(stands.front().sizeMm.x(), 250);
  EXPECT_NEAR(stands.front().R_BP.determinant(), 1, 1e-12);
}

/// A cup: 20 x 20 outside, walls 2, 20 high, the bottom 2.
TriangleMesh cupMesh() {
  const auto square = [](double half) {
    return FlatRing{{-half, -half}, {half, -half}, {half, half}, {-half, half}};
  };
  return loftOf({{0, square(10)}, {20, square(10)}, {20, square(8)}, {2, square(8)}});
}

// It holds 16 x 16 x 18. On a grid of 64 cells two layers of doubt in the
// height, 3 %, and a cell in either width, 4 %.
TEST(BedStand, ACupTrapsResinUprightAndOnItsRimButNotOnItsSide) {
  const TriangleMesh cup = cupMesh();
  EXPECT_NEAR(trappedVolume(cup, tiltedBy(0), true), 4608, 0.08 * 4608);
  EXPECT_NEAR(trappedVolume(cup, tiltedBy(0), false), 4608, 0.08 * 4608);
  EXPECT_NEAR(trappedVolume(cup, tiltedBy(180), true), 4608, 0.08 * 4608);
  EXPECT_EQ(trappedVolume(cup, tiltedBy(180), false), 0);
  EXPECT_EQ(trappedVolume(cup, tiltedBy(90), true), 0);
  WorkMonitor monitor;
  const auto stands = standsOf(standShapeFor(cup), standResin(), 3, monitor);
  ASSERT_FALSE(stands.empty());
  EXPECT_EQ(stands.front().trappedMm3, 0);
}

// Check values, G-7: outside 20, inside 16, the inner shell turned round.
TEST(Hollows, AClosedCavityIsFoundExactlyAndANarrowNeckAbout) {
  const TriangleMesh hollow =
      shapes::joined({shapes::box({0, 0, 0}, {20, 20, 20}),
                      shapes::reversed(shapes::box({2, 2, 2}, {18, 18, 18}))});
  const auto closed = hollowsOf(hollow, 4);
  ASSERT_EQ(closed.size(), 1u);
  EXPECT_EQ(closed[0].kind, Hollow::Kind::closed);
  EXPECT_NEAR(closed[0].volumeMm3, 4096, 1e-9);
  EXPECT_NEAR((closed[0].middle_P - Vector3d(10, 10, 10)).norm(), 0, 1e-9);

  const auto square = [](double half) {
    return FlatRing{{-half, -half}, {half, -half}, {half, half}, {-half, half}};
  };
  // A bottle with a square neck 2 wide: the sphere of 4 is held in. One of 6 wide: it is not.
  const auto bottle = [&](double neck) {
    return loftOf({{0, square(10)},
                   {20, square(10)},
                   {20, square(neck / 2)},
                   {18, square(neck / 2)},
                   {18, square(8)},
                   {2, square(8)}});
  };
  const auto narrow = hollowsOf(bottle(2), 4);
  ASSERT_EQ(narrow.size(), 1u);
  EXPECT_EQ(narrow[0].kind, Hollow::Kind::narrowNeck);
  EXPECT_NEAR((narrow[0].middle_P - Vector3d(0, 0, 10)).norm(), 0, 1);
  EXPECT_TRUE(hollowsOf(bottle(6), 4).empty());
  EXPECT_TRUE(hollowsOf(cupMesh(), 4).empty());
  EXPECT_TRUE(hollowsOf(hollow, 0).empty());
}

}  // namespace
}  // namespace swingroom
