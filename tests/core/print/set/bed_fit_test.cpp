// Closed forms, beside each.
#include "core/print/set/bed_fit.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

TriangleMesh boxOf(double x, double y, double z) {
  return shapes::box({0, 0, 0}, {x, y, z});
}

constexpr std::array<double, 3> kCube = {220, 220, 220};

TEST(BedFit, WhatFitsAsItIsFitsExactly) {
  const BedFit fit = bedFit(boxOf(220, 220, 220), kCube);
  EXPECT_EQ(fit.verdict, BedVerdict::fits);
  EXPECT_LE(fit.overUpperMm, 1e-9);
}

// A cube is at least its edge wide in every direction: 1 mm too large however it is turned.
TEST(BedFit, ACubeThatIsOneTooLargeIsProvenSo) {
  const BedFit fit = bedFit(boxOf(221, 221, 221), kCube);
  EXPECT_EQ(fit.verdict, BedVerdict::doesNotFit);
  EXPECT_LE(fit.overLowerMm, 1 + 1e-9);
  EXPECT_GE(fit.overUpperMm, 1 - 1e-9);
  EXPECT_GT(fit.overLowerMm, 0);
}

// The bed's diagonal in space is 220 sqrt(3) = 381.05.
TEST(BedFit, ARodFitsAlongTheDiagonalInSpace) {
  EXPECT_EQ(bedFit(boxOf(375, 1, 1), kCube).verdict, BedVerdict::fits);
  EXPECT_EQ(bedFit(boxOf(385, 1, 1), kCube).verdict, BedVerdict::doesNotFit);
}

// A plate a x b fits a square flat, turned by 45 degrees, if (a + b) / sqrt(2) is not above its
// side: 350 / sqrt(2) = 247.49, 360 / sqrt(2) = 254.56. Tilted out of the plane it gains less than
// it grows in height: of 60 mm by the angle that 5.06 mm of height gives, a cosine of 0.996.
TEST(BedFit, APlateFitsAlongTheDiagonalOfAFlatBed) {
  const std::array<double, 3> flat = {250, 250, 10.5};
  const BedFit fits = bedFit(boxOf(300, 50, 10), flat);
  EXPECT_EQ(fits.verdict, BedVerdict::fits);
  for (int d = 0; d < 3; ++d) EXPECT_LE(fits.sizeMm[d], flat[static_cast<std::size_t>(d)] + 1e-9);
  EXPECT_LE((sizeOf(boxOf(300, 50, 10), fits.R_BP) - fits.sizeMm).norm(), 1e-9);
  EXPECT_NEAR((fits.R_BP * fits.R_BP.transpose() - Eigen::Matrix3d::Identity()).norm(), 0, 1e-12);
  const BedFit not254 = bedFit(boxOf(300, 60, 10), flat);
  EXPECT_EQ(not254.verdict, BedVerdict::doesNotFit);
  // The bracket is within a hundredth of 300.
  EXPECT_LE(not254.overUpperMm, 360 / std::sqrt(2) - 250 + 3);
  EXPECT_GE(not254.overLowerMm, 0.996 * 360 / std::sqrt(2) - 250 - 3);
}

TEST(BedFit, ARoundFitsAsItIsOrNotAtAll) {
  const TriangleMesh ball = shapes::sphere(50, 3);
  EXPECT_EQ(bedFit(ball, {100, 100, 100}).verdict, BedVerdict::fits);
  const BedFit fit = bedFit(ball, {98, 120, 120});
  EXPECT_EQ(fit.verdict, BedVerdict::doesNotFit);
  // The ball is nowhere wider than 100, and with its facets less than 1 less.
  EXPECT_GT(fit.overLowerMm, 0);
  EXPECT_LE(fit.overUpperMm, 2);
}

TEST(BedFit, WithoutTheTimeItDoesNotTell) {
  const BedFit fit = bedFit(boxOf(300, 60, 10), {250, 250, 10}, 40);
  EXPECT_EQ(fit.verdict, BedVerdict::notTold);
  EXPECT_LE(fit.overLowerMm, fit.overUpperMm);
  EXPECT_EQ(bedFit({}, kCube).verdict, BedVerdict::notTold);
}

}  // namespace
}  // namespace swingroom
