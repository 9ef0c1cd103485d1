#include <gtest/gtest.h>

#include "core/print/weight/part_mass.h"
#include "tests/core/print/print_fixture.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

PartMass massOfMesh(const TriangleMesh& mesh, double infill, double shellMm) {
  Mechanism one;
  one.addPart("part", mesh);
  PrintFixture fixture(one);
  fixture.prints[0].process.infill.value = infill;
  fixture.prints[0].process.shellMm.value = shellMm;
  WorkMonitor monitor;
  return partMasses(fixture.subject(), monitor).at(0);
}

TriangleMesh massBox(double x, double y, double z) {
  return shapes::box(kOrigin, {x, y, z});
}

// PLA, 1.24 g/cm3; check values G-7 (closed form): 3904 mm3 are 4.84096 g.
TEST(PartMass, HollowCubePrintedSolid) {
  const TriangleMesh cube =
      shapes::joined({shapes::box({-10, -10, -10}, {10, 10, 10}),
                      shapes::reversed(shapes::box({-8, -8, -8}, {8, 8, 8}))});
  const PartMass mass = massOfMesh(cube, 1, 1.2);
  EXPECT_EQ(mass.model, MassModel::solid);
  EXPECT_NEAR(mass.massG, 4.84096, 1e-9);
  EXPECT_NEAR(mass.lowerG, mass.upperG, 1e-12);
}

// The same cube as a full one with 2 mm of skin and nothing inside: closed form.
TEST(PartMass, SkinOfACubeWithoutInfillIsTheHollowCube) {
  const PartMass mass = massOfMesh(massBox(20, 20, 20), 0, 2);
  EXPECT_EQ(mass.model, MassModel::skinned);
  EXPECT_LE(mass.lowerG, 4.84096);
  EXPECT_GE(mass.upperG, 4.84096);
  EXPECT_LE(mass.leastG, mass.lowerG);
  EXPECT_GE(mass.mostG, mass.upperG);
  EXPECT_NEAR(mass.massG, 4.84096, 0.01 * 4.84096);  // What it promises of itself.
}

// Closed form: the box less its 1.2 mm skin is a box.
TEST(PartMass, BoxWithInfill) {
  const PartMass mass = massOfMesh(massBox(20, 30, 40), 0.15, 1.2);
  const double deep = 17.6 * 27.6 * 37.6;
  const double expected = 1.24e-3 * (24000 - deep + 0.15 * deep);
  EXPECT_LE(mass.lowerG, expected);
  EXPECT_GE(mass.upperG, expected);
  EXPECT_NEAR(mass.massG, expected, 0.01 * expected);
  EXPECT_NEAR(mass.skinMm3, 24000 - deep, 0.01 * 24000);
  EXPECT_LE((mass.centre_P - Vector3d(10, 15, 20)).norm(), mass.centreOffMm + 1e-9);
  EXPECT_LT(mass.centreOffMm, 0.2);
}

// Closed form of the ball; its mesh lies inside by less than 0.02 mm, 0.3 % of its volume.
TEST(PartMass, BallWithInfill) {
  const PartMass mass = massOfMesh(shapes::sphere(10, 4), 0.2, 2);
  const double whole = 4.0 / 3 * kPi * 1000, deep = 4.0 / 3 * kPi * 512;
  const double expected = 1.24e-3 * (whole - 0.8 * deep);
  EXPECT_NEAR(mass.massG, expected, 0.006 * expected + mass.upperG - mass.massG);
}

// Two boxes in one mesh, of which the smaller one is all skin: closed form.
TEST(PartMass, CentreLiesTowardsWhatIsSolid) {
  const PartMass mass = massOfMesh(
      shapes::joined({massBox(20, 20, 20), shapes::box({40, 8, 8}, {44, 12, 12})}), 0, 2);
  const double large = 3904, small = 64;
  const double x = (large * 10 + small * 42) / (large + small);
  EXPECT_NEAR(mass.centre_P.x(), x, mass.centreOffMm + 1e-9);
  EXPECT_NEAR(mass.centre_P.y(), 10, mass.centreOffMm + 1e-9);
  EXPECT_LT(mass.centreOffMm, 0.2);
}

TEST(PartMass, ThinPartsAreAllSkin) {
  const PartMass mass = massOfMesh(massBox(40, 30, 2), 0.15, 1.2);
  EXPECT_NEAR(mass.massG, 1.24e-3 * 2400, 1e-9);
  EXPECT_NEAR(mass.centreOffMm, 0, 1e-9);
}

TEST(PartMass, BoughtAndSoftPartsAreSolidAndOpenMeshesUnknown) {
  Mechanism three;
  three.addPart("bought", massBox(20, 20, 20));
  three.addPart("soft", massBox(20, 20, 20));
  TriangleMesh open = massBox(20, 20, 20);
  open.triangles.pop_back();
  three.addPart("open", open);
  PrintFixture fixture(three);
  fixture.prints[0].printed = false;
  fixture.prints[1].material = *findMaterial(builtInMaterials(), "TPU");
  WorkMonitor monitor;
  const auto masses = partMasses(fixture.subject(), monitor);
  EXPECT_NEAR(masses[0].massG, 1.24 * 8, 1e-9);
  EXPECT_NEAR(masses[1].massG, 1.21 * 8, 1e-9);
  EXPECT_FALSE(masses[2].known());
}

// The union of two cubes that overlap by half: 12 cm3, not the 16 of both.
TEST(PartMass, OverlapOfShellsIsNotWeighedTwice) {
  const TriangleMesh both =
      shapes::joined({massBox(20, 20, 20), shapes::box({10, 0.1, 0.1}, {30, 19.9, 19.9})});
  const PartMass mass = massOfMesh(both, 0.15, 0.5);
  EXPECT_TRUE(mass.shellsOverlap);
  EXPECT_LT(mass.volumeMm3, 8000 + 20 * 19.8 * 19.8 - 2500);
  EXPECT_GT(mass.volumeMm3, 8000 + 10 * 19.8 * 19.8 - 1);
}

}  // namespace
}  // namespace swingroom
