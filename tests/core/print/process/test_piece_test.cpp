// The piece's stated gaps held against the program's own check and against FCL. Closed forms: the
// gap is half the clearance by how pin and hole are defined.
#include "core/print/process/test_piece.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/mesh/health.h"
#include "core/mesh/mass_properties.h"
#include "core/proximity/gap.h"
#include "core/sweep/sweep.h"
#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

const std::vector<PrintProcess>& pieceProcesses() {
  return builtInProcesses();
}

TEST(TestPiece, EveryBodyOfEveryProcessIsOneClosedSurface) {
  for (const PrintProcess& process : pieceProcesses()) {
    const TestPiece piece = makeTestPiece(testPieceWish(process));
    for (const TriangleMesh* mesh : {&piece.plate, &piece.pin, &piece.tongue}) {
      const MeshHealth health = examine(*mesh);
      EXPECT_TRUE(health.closed()) << process.name;
      EXPECT_EQ(health.shells.size(), 1u);
      EXPECT_EQ(health.openEdges + health.nonManifoldEdges + health.zeroAreaTriangles +
                    health.repeatedTriangles + health.insideOutShells,
                0u);
      EXPECT_EQ(boundsOf(*mesh).min().z(), 0);
    }
    EXPECT_EQ(shellsOf(laidOut(piece)).size(), 3u);
    const Vector3d size = boundsOf(laidOut(piece)).sizes();
    for (int d = 0; d < 3; ++d) EXPECT_LT(size[d], process.bedMm[d]) << process.name;
  }
}

// Prism of `sides` sides about a circle: area sides * r^2 * tan(pi / sides). A frustum's volume is
// exact by the prismatoid rule, h / 6 * (low + 4 * middle + high), as its areas are squares of a
// linear function.
TEST(TestPiece, ThePlatesVolumeIsThatOfTheSolidWithoutItsOpenings) {
  TestPieceWish wish;
  wish.clearancesMm = {0.3};
  const TriangleMesh plate = makeTestPiece(wish).plate;
  const Vector3d size = boundsOf(plate).sizes();
  const auto opening = [&](auto areaWith) {
    const double c = wish.chamferMm;
    const double rim = c / 6 * (areaWith(0.0) + 4 * areaWith(c / 2) + areaWith(c));
    return (wish.plateMm - 2 * c) * areaWith(0.0) + 2 * rim;
  };
  const double round =
      opening([&](double wider) { return 128 * std::pow(2.65 + wider, 2) * std::tan(kPi / 128); });
  const double flat = opening([&](double wider) { return 4 * (1.65 + wider) * (4 + wider); });
  // 3: five flats' cells and uprights; 0: all but the middle. A digit is 3.4 by 6.6, strokes 1.
  const double three = 3 * 3.4 * 1 + 2 * 1 * 1.8;
  const double zero = 2 * 3.4 * 1 + 2 * (1.8 + 1 + 1.8);
  EXPECT_NEAR(massProperties(plate).volumeMm3, size.prod() - round - flat - 0.6 * (three + zero),
              1e-6);
}

/// Every pin turning a full turn in its hole, every tongue standing in its slot.
Mechanism pieceMechanism(const TestPiece& piece) {
  Mechanism mechanism;
  const PartId plate = mechanism.addPart("plate", piece.plate);
  std::vector<std::pair<JointId, JointValue>> turns;
  for (const TestPlace& place : piece.places) {
    const PartId pin = mechanism.addPart("pin", shapes::moved(piece.pin, place.X_PlatePin));
    const JointId hinge =
        mechanism.addHinge(pin, plate, place.X_PlatePin.translation(), Vector3d::UnitZ());
    turns.emplace_back(hinge, deg(360));
  }
  for (const TestPlace& place : piece.places) {
    const PartId tongue =
        mechanism.addPart("tongue", shapes::moved(piece.tongue, place.X_PlateTongue));
    mechanism.addFixed(tongue, plate);
  }
  mechanism.addStep(turns);
  mechanism.parts().resolutionMm = 0.001;
  mechanism.parts().requiredGapMm = 0;
  return mechanism;
}

TEST(TestPiece, ItsGapsAreAsStatedByTheProgramsOwnCheck) {
  const TestPiece piece = makeTestPiece(testPieceWish(builtInProcesses()[0]));
  const Mechanism mechanism = pieceMechanism(piece);
  const Assembly assembly = mechanism.assembly();
  const AssemblyGeometry geometry = prepareGeometry(assembly, 1);
  SweepSettings settings;
  settings.resolutionMm = 0.001;
  WorkMonitor monitor;
  for (std::size_t p = 1; p < assembly.parts().size(); ++p) {
    const double stated = piece.places[(p - 1) % piece.places.size()].clearanceMm / 2;
    const PairResult pair = checkPair(assembly, mechanism.modes(), mechanism.sequence(), geometry,
                                      PartId{0}, PartId{p}, settings, monitor);
    ASSERT_TRUE(pair.gap.upperMm) << p;
    EXPECT_LE(pair.gap.lowerMm, stated + 1e-9) << p;
    EXPECT_GE(*pair.gap.upperMm, stated - 1e-9) << p;
    EXPECT_LE(*pair.gap.upperMm - pair.gap.lowerMm, 0.001 + 1e-9) << p;
  }
}

TEST(TestPiece, APinIsNeverNearerThanStatedAndJustSoWhereACornerFacesAFlat) {
  const TestPiece piece = makeTestPiece(testPieceWish(builtInProcesses()[3]));
  const GapModel plate(piece.plate), pin(piece.pin), tongue(piece.tongue);
  for (const TestPlace& place : piece.places) {
    const auto gapAt = [&](double angle) {
      return gapBetween(plate, pin, place.X_PlatePin * rotationAbout(Vector3d::Zero(), kZ, angle))
          .gapMm;
    };
    for (int i = 0; i < 40; ++i) EXPECT_GE(gapAt(0.0137 * i), place.clearanceMm / 2 - 1e-9);
    EXPECT_NEAR(gapAt(kPi / 128), place.clearanceMm / 2, 1e-9);
    EXPECT_NEAR(gapBetween(plate, tongue, place.X_PlateTongue).gapMm, place.clearanceMm / 2, 1e-9);
  }
}

TEST(TestPiece, WhatCannotBeMadeIsRefused) {
  TestPieceWish wish = testPieceWish(builtInProcesses()[0]);
  wish.clearancesMm = {0.3, 0.2};
  EXPECT_THROW(makeTestPiece(wish), std::invalid_argument);
  wish.clearancesMm = {0.305};
  EXPECT_THROW(makeTestPiece(wish), std::invalid_argument);
  wish.clearancesMm = {};
  EXPECT_THROW(makeTestPiece(wish), std::invalid_argument);
  wish.clearancesMm = {0.99};
  wish.pinMm = 50;
  wish.tongueMm = 1;
  EXPECT_TRUE(examine(makeTestPiece(wish).plate).closed());
  wish.pinMm = 1;
  EXPECT_THROW(makeTestPiece(wish), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
