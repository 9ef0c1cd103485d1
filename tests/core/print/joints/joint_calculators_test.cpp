#include <gtest/gtest.h>

#include <cmath>

#include "core/base/transform.h"
#include "core/print/joints/general_tolerance.h"
#include "core/print/joints/joint_play.h"
#include "core/print/joints/press_fit.h"
#include "core/print/joints/snap_hook.h"
#include "core/print/joints/snap_ring.h"

namespace swingroom {
namespace {

// ISO 2768-1:1989, Table 1. f, m, v and c above 6 mm: three reproductions agree. c below 6 mm: from
// memory, reproductions differ.
TEST(GeneralTolerance, TableIsThatOfTheStandard) {
  const char letters[] = "fmcv";
  const double plusMinus[4][5] = {{0.05, 0.05, 0.1, 0.15, 0.2},
                                  {0.1, 0.1, 0.2, 0.3, 0.5},
                                  {0.2, 0.3, 0.5, 0.8, 1.2},
                                  {0, 0.5, 1, 1.5, 2.5}};
  const double ends[6] = {0.5, 3, 6, 30, 120, 400};
  for (int i = 0; i < 4; ++i) {
    for (int range = 0; range < 5; ++range) {
      for (const double size : {ends[range] + 0.01, ends[range + 1]}) {
        const auto found = generalToleranceMm(letters[i], size);
        const double wanted = plusMinus[i][range];
        EXPECT_EQ(found.has_value(), wanted > 0) << letters[i] << " at " << size;
        EXPECT_EQ(found.value_or(0), wanted) << letters[i] << " at " << size;
      }
    }
  }
  EXPECT_FALSE(generalToleranceMm('m', 0.49));
  EXPECT_FALSE(generalToleranceMm('m', 400.1));
  EXPECT_FALSE(generalToleranceMm('x', 10));
}

// Closed forms; the handbook has 0.67, 1.09 and 0.86.
TEST(SnapHook, CoefficientsAreThoseOfTheBeam) {
  EXPECT_NEAR(hookCoefficient(HookShape::constant), 2.0 / 3, 1e-12);
  EXPECT_NEAR(hookCoefficient(HookShape::taperedHeight), 1.0903549, 5e-8);
  EXPECT_NEAR(hookCoefficient(HookShape::taperedBreadth), 0.8551983, 5e-8);
}

// Against the beam itself: y = P/E * integral of x^2 / I, e = P l h / (2 E I at the root), summed
// up.
TEST(SnapHook, CoefficientsAgreeWithTheBeamSummedUp) {
  for (const HookShape shape :
       {HookShape::constant, HookShape::taperedHeight, HookShape::taperedBreadth}) {
    constexpr int kSteps = 200000;
    double sum = 0;
    for (int i = 0; i < kSteps; ++i) {
      const double u = (i + 0.5) / kSteps;
      const double share = shape == HookShape::constant        ? 1
                           : shape == HookShape::taperedHeight ? std::pow((1 + u) / 2, 3)
                                                               : (1 + 3 * u) / 4;
      sum += 2 * u * u / share / kSteps;
    }
    EXPECT_NEAR(hookCoefficient(shape), sum, 1e-9);
  }
}

// J-1: Snap-Fit Joints for Plastics (Bayer), calculation example I; its pages were not read, the
// figures are those known of it. Each step from the figure that the book had rounded before (its C
// is 1.09); 0.2 %: what one step rounds.
TEST(SnapHook, PolycarbonateHookOfTheHandbook) {
  SnapHook hook{HookShape::taperedHeight, 19, 3.28, 9.5};
  EXPECT_NEAR(hookThicknessMm(hook, 2.4, 0.02), 3.28, 0.002 * 3.28);
  EXPECT_NEAR(hookForceN(hook, 0.02, 1815), 32.5, 0.002 * 32.5);
  EXPECT_NEAR(32.5 * slopeFactor(0.6, radFromDeg(30)), 58.5, 0.002 * 58.5);
  EXPECT_NEAR(hookStrain(hook, hookDeflectionMm(hook, 0.02)), 0.02, 1e-12);
}

// J-2: closed form; also P = 3 E I y / l^3.
TEST(SnapHook, SameHookOfConstantSection) {
  SnapHook hook{HookShape::constant, 19, 0, 9.5};
  hook.thicknessMm = hookThicknessMm(hook, 2.4, 0.02);
  EXPECT_NEAR(hook.thicknessMm, 2.0055555556, 1e-9);
  const double force = hookForceN(hook, 0.02, 1815);
  EXPECT_NEAR(force, 12.167, 5e-4);
  EXPECT_NEAR(force * slopeFactor(0.6, radFromDeg(30)), 21.918, 1e-3);
  const double inertia = 9.5 * std::pow(hook.thicknessMm, 3) / 12;
  EXPECT_NEAR(force, 3 * 1815 * inertia * 2.4 / std::pow(19, 3), 1e-9);
}

// J-3: a published design article prints 4.16 and 2.8 %.
TEST(SnapHook, LongerHookStrainsLess) {
  EXPECT_NEAR(hookStrain({HookShape::constant, 15, 2.5, 5}, 2.5), 0.041667, 1e-6);
  EXPECT_NEAR(hookStrain({HookShape::constant, 18, 2.5, 5}, 2.5), 0.028935, 1e-6);
}

// J-4: closed form.
TEST(SnapHook, PlaHook) {
  const SnapHook hook{HookShape::constant, 15, 1.5, 6};
  EXPECT_NEAR(hookDeflectionMm(hook, 0.02), 2.000, 1e-3);
  EXPECT_NEAR(hookForceN(hook, 0.02, 3500), 10.500, 1e-3);
  EXPECT_NEAR(hookForceN(hook, 0.02, 3500) * slopeFactor(0.3, radFromDeg(30)), 11.142, 1e-3);
}

// J-5 and check values 5.1. Formula: DSM Engineering Plastics Technical Guide, "Mating force and
// separation force".
TEST(SnapHook, SteepFacesLock) {
  EXPECT_NEAR(slopeFactor(0.6, radFromDeg(30)), 1.80136, 1e-5);
  EXPECT_NEAR(slopeFactor(0.6, radFromDeg(45)), 4.0, 1e-5);
  EXPECT_TRUE(std::isinf(slopeFactor(0.6, radFromDeg(60))));
  EXPECT_TRUE(std::isinf(slopeFactor(0, radFromDeg(90.001))));
  EXPECT_NEAR(degFromRad(lockingAngleRad(0.6)), 59.04, 0.005);
  EXPECT_NEAR(degFromRad(lockingAngleRad(0.5)), 63.43, 0.005);
  EXPECT_NEAR(degFromRad(lockingAngleRad(0.3)), 73.30, 0.005);
  EXPECT_FALSE(std::isinf(slopeFactor(0.6, lockingAngleRad(0.6) - 1e-6)));
  EXPECT_TRUE(std::isinf(slopeFactor(0.6, lockingAngleRad(0.6) + 1e-6)));
}

// J-6: closed form on the handbook's formula, which is from memory.
TEST(SnapRing, ElasticHub) {
  const SnapRing ring{RingGives::hub, 20, 24, false};
  EXPECT_NEAR(ringStrain(0.4, 20), 0.02, 1e-12);
  EXPECT_NEAR(ringStiffness(ring, 0.35), 0.0470316, 0.001 * 0.047);
  EXPECT_NEAR(ringForceN(ring, 0.4, 1800, 0.35), 677.25, 0.001 * 677);
  EXPECT_NEAR(ringForceN(ring, 0.4, 1800, 0.35) * slopeFactor(0.6, radFromDeg(30)), 1219.98, 1.22);
}

// Check values 5.2: a groove far from the end is about three times as stiff; the shaft's formula
// has d over its bore, and minus nu.
TEST(SnapRing, RemoteGrooveAndElasticShaft) {
  EXPECT_NEAR(ringForceN({RingGives::hub, 20, 24, true}, 0.4, 1800, 0.35), 3 * 677.25, 2.1);
  const double w = 20.0 / 16, shape = (w * w + 1) / (w * w - 1);
  EXPECT_NEAR(ringStiffness({RingGives::shaft, 20, 16, false}, 0.35),
              0.62 * std::sqrt(w - 1) / (shape - 0.35), 1e-12);
  EXPECT_TRUE(std::isinf(ringStiffness({RingGives::shaft, 20, 0, false}, 0.35)));
}

// Check values 5.3: closed form.
TEST(BallSnap, OpeningAndStrainFollowFromTheLip) {
  const double rows[3][3] = {
      {1.0, 9.797959, 2.0621}, {1.5, 9.539392, 4.8285}, {2, 9.165151, 9.1089}};
  for (const auto& [lip, opening, percent] : rows) {
    EXPECT_NEAR(socketOpeningMm(10, lip), opening, 5e-7);
    EXPECT_NEAR(100 * openingStrain(10, socketOpeningMm(10, lip)), percent, 5e-5);
  }
  EXPECT_EQ(socketOpeningMm(10, 6), 0);
  EXPECT_EQ(openingStrain(10, 10.5), 0);
}

PressFit pressOf(double pin, double hub, double length, double interference, double modulus,
                 double poisson) {
  const PressMaterial material{modulus, poisson};
  return {pin, hub, 0, length, interference, material, material};
}

// H-4: a published calculator's example prints 51.2 MPa, 38.6 kN, 965 N m and 117 MPa; a
// finite-element model gives 51.18750 MPa. nu drops out.
TEST(PressFitTest, SteelShaftInItsHub) {
  const PressFit fit = pressOf(50, 80, 40, 0.04, 210000, 0.3);
  EXPECT_NEAR(pressMPa(fit), 51.1875, 5e-5);
  EXPECT_NEAR(pressForceN(fit, 0.12), 38594.466, 5e-4);
  EXPECT_NEAR(pressTorqueNmm(fit, 0.12), 964861.64, 5e-3);
  EXPECT_NEAR(hubTensionMPa(fit), 116.8125, 5e-5);
}

// H-5: closed form; finite elements 9.503472.
TEST(PressFitTest, PlasticPin) {
  const PressFit fit = pressOf(5, 12, 8, 0.05, 2300, 0.36);
  EXPECT_NEAR(pressMPa(fit), 9.503472, 5e-7);
  EXPECT_NEAR(pressForceN(fit, 0.3), 358.2725, 5e-5);
  EXPECT_NEAR(pressTorqueNmm(fit, 0.3), 895.6812, 5e-5);
  EXPECT_NEAR(hubTensionMPa(fit), 13.49653, 5e-6);
}

// H-6: closed form.
TEST(PressFitTest, SteelPinInThatHub) {
  PressFit fit = pressOf(5, 12, 8, 0.05, 2300, 0.36);
  fit.pin = {200000, 0.3};
  EXPECT_NEAR(pressMPa(fit), 12.861966, 5e-7);
  EXPECT_NEAR(pressForceN(fit, 0.2), 323.2565, 5e-5);
  EXPECT_NEAR(pressTorqueNmm(fit, 0.2), 808.1412, 5e-5);
  EXPECT_NEAR(hubTensionMPa(fit), 18.26615, 5e-6);
  // What hub and pin give is the interference together: u / r of the hub, p / E (1 - nu) of the
  // pin.
  EXPECT_NEAR(5 * (hubStrain(fit) + pressMPa(fit) / 200000 * (1 - 0.3)), 0.05, 1e-12);
}

// H-7: closed form; finite elements 4.125000.
TEST(PressFitTest, HollowPin) {
  PressFit fit = pressOf(8, 14, 10, 0.06, 2000, 0.38);
  fit.boreMm = 4;
  EXPECT_NEAR(pressMPa(fit), 4.125, 5e-7);
  EXPECT_NEAR(pressForceN(fit, 0.3), 311.0177, 5e-5);
  EXPECT_NEAR(pressTorqueNmm(fit, 0.3), 1244.0707, 5e-5);
  EXPECT_NEAR(hubTensionMPa(fit), 8.125, 5e-7);
}

// H-8: closed form, 25 H7/s6.
TEST(PressFitTest, DriveFitAtBothLimits) {
  PressFit fit = pressOf(25, 50, 30, 0.014, 207000, 0.29);
  EXPECT_NEAR(pressMPa(fit), 43.47, 5e-3);
  EXPECT_NEAR(pressForceN(fit, 0.15), 15363.57, 5e-3);
  EXPECT_NEAR(pressTorqueNmm(fit, 0.15), 192044.6, 0.05);
  EXPECT_NEAR(hubTensionMPa(fit), 72.45, 5e-3);
  fit.interferenceMm = 0.048;
  EXPECT_NEAR(pressMPa(fit), 149.04, 5e-3);
  EXPECT_NEAR(pressForceN(fit, 0.15), 52675.08, 5e-3);
  EXPECT_NEAR(pressTorqueNmm(fit, 0.15), 658438.6, 0.05);
  EXPECT_NEAR(hubTensionMPa(fit), 248.4, 5e-2);
}

TEST(PressFitTest, ClearancePressesNothing) {
  EXPECT_EQ(pressMPa(pressOf(5, 12, 8, -0.05, 2300, 0.36)), 0);
  EXPECT_EQ(pressTorqueNmm(pressOf(5, 12, 8, 0, 2300, 0.36), 0.5), 0);
}

// H-2: clutch forms of machine design.
TEST(FrictionDisc, NewAndRunIn) {
  EXPECT_NEAR(discTorqueNmm(20, 0.3, 6, 2.5), 26.941176, 5e-7);
  EXPECT_NEAR(wornDiscTorqueNmm(20, 0.3, 6, 2.5), 25.5, 1e-9);
}

// Closed form: over the whole ball the integral of sqrt(r^2 - z^2) is pi r^2 / 2; a narrow band at
// the equator is a pin of that length.
TEST(FrictionBall, BandAndWholeBall) {
  EXPECT_NEAR(ballBandTorqueNmm(2, 0.3, 5, -5, 5), 0.3 * 2 * kPi * kPi * 125, 1e-9);
  EXPECT_NEAR(ballBandTorqueNmm(2, 0.3, 5, -0.01, 0.01), 0.3 * 2 * 2 * kPi * 25 * 0.02, 1e-4);
}

// D-C4: D 5.4, d 5, L 10.
TEST(JamAngle, PinTiltsUntilItJams) {
  EXPECT_NEAR(degFromRad(jamAngleRad(5, 5.4, 10)), 2.26818, 0.001);
  EXPECT_EQ(jamAngleRad(5, 5, 10), 0);
  EXPECT_EQ(jamAngleRad(5, 4.9, 10), 0);
}

// Closed form: W = w cos x + 2 r sin x of a lug whose corners touch both cheeks.
TEST(JamAngle, LugTiltsBetweenCheeks) {
  const double x = radFromDeg(5), w = 3.4, r = 4.6;
  EXPECT_NEAR(cheekAngleRad(w, w * std::cos(x) + 2 * r * std::sin(x), r), x, 1e-9);
  EXPECT_EQ(cheekAngleRad(3.4, 3.4, 4.6), 0);
  EXPECT_NEAR(cheekAngleRad(1, 12, 4.6), kPi / 2, 1e-12);  // It turns right over.
}

}  // namespace
}  // namespace swingroom
