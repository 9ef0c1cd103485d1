// Published and closed-form figures: check values 5.1 (J-1, J-4) and 5.2 (J-6), as in
// joint_calculators_test.cpp, put together.
#include "core/print/joints/snap_case.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/base/transform.h"

namespace swingroom {
namespace {

SnapFigures figuresOf(double modulusMPa, double frictionLow, double frictionHigh) {
  return {modulusMPa, 0.35, {frictionLow, frictionHigh}, radFromDeg(30), radFromDeg(60)};
}

// J-1, Bayer guide, calculation example I: P 32.5 N, W 58.5 N; 0.2 %: its roundings, and here the
// strain is of h 3.28 as typed, not 2 % (another 0.05 %). At 60 degrees and 0.6 it locks (J-5).
TEST(SnapCase, PolycarbonateHookOfTheHandbook) {
  const SnapHook hook{HookShape::taperedHeight, 19, 3.28, 9.5};
  const SnapForces forces = hookForces(hook, 2.4, figuresOf(1815, 0.3, 0.6));
  EXPECT_NEAR(forces.acrossN, 32.5, 0.0025 * 32.5);
  EXPECT_NEAR(forces.matingN.high, 58.5, 0.0025 * 58.5);
  EXPECT_LT(forces.matingN.low, forces.matingN.high);
  EXPECT_TRUE(std::isinf(forces.releaseN.high));
  EXPECT_FALSE(std::isinf(forces.releaseN.low)) << "0.3 locks from 73.3 degrees on";
}

// J-4: closed form.
TEST(SnapCase, PlaHook) {
  const SnapForces forces =
      hookForces({HookShape::constant, 15, 1.5, 6}, 2, figuresOf(3500, 0.3, 0.3));
  EXPECT_NEAR(forces.acrossN, 10.5, 1e-3);
  EXPECT_NEAR(forces.matingN.low, 11.142, 1e-3);
  EXPECT_EQ(forces.matingN.low, forces.matingN.high);
}

// J-6: closed form on the handbook's formula, which is from memory.
TEST(SnapCase, ElasticHubAndSolidShaft) {
  const SnapForces forces =
      ringForces({RingGives::hub, 20, 24, false}, 0.4, figuresOf(1800, 0.6, 0.6));
  EXPECT_NEAR(forces.acrossN, 677.25, 0.7);
  EXPECT_NEAR(forces.matingN.high, 1219.98, 1.3);
  EXPECT_TRUE(std::isinf(
      ringForces({RingGives::shaft, 20, 0, false}, 0.4, figuresOf(1800, 0.3, 0.6)).matingN.low));
}

// Check values 5.4: PLA 2 % once, 1.2 % again and again; across layers half of it.
TEST(SnapCase, PermissibleStrainByUseAndLayers) {
  const Material& pla = builtInMaterials()[0];
  EXPECT_DOUBLE_EQ(*permissibleStrain(pla, false, false), 0.02);
  EXPECT_DOUBLE_EQ(*permissibleStrain(pla, true, false), 0.012);
  EXPECT_DOUBLE_EQ(*permissibleStrain(pla, true, true), 0.006);
  EXPECT_FALSE(permissibleStrain(*findMaterial(builtInMaterials(), "TPU"), false, false));
}

// Solid pin and hub of one material: p = E i / (2 d) (1 - (d / D)^2), Shigley Eq. 7-41 for equal
// materials and a solid shaft.
TEST(SnapCase, PressFitOfOneMaterial) {
  const PressHold hold = pressHold({5, 10, 0, 8, 0.05, {}, {}}, {2000, 0.36, {0.2, 0.5}, 0, 0});
  const double pressure = 2000 * 0.05 / (2 * 5) * (1 - 0.25);
  EXPECT_NEAR(hold.pressureMPa, pressure, 1e-9);
  EXPECT_NEAR(hold.forceN.low, kPi * 5 * 8 * pressure * 0.2, 1e-9);
  EXPECT_NEAR(hold.torqueNmm.high, kPi * 5 * 8 * pressure * 0.5 * 2.5, 1e-9);
}

}  // namespace
}  // namespace swingroom
