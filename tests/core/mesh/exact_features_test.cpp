#include <gtest/gtest.h>

#include "core/base/transform.h"
#include "core/mesh/exact_features.h"
#include "core/mesh/feature_finder.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

/// What a pin of radius 2 from z 0 to 9 is exactly.
CylinderFeature exactPin() {
  CylinderFeature pin;
  pin.radiusMm = 2;
  pin.toMm = 9;
  pin.coverageRad = 2 * kPi;
  pin.outward = true;
  return pin;
}

TEST(ExactFeatures, TakeThePlaceOfTheirFits) {
  const Features found = featuresOf(shapes::cylinder(2, 0, 9, 48));
  ASSERT_EQ(found.cylinders.size(), 1u);
  const Features both = withExact(found, {{exactPin()}, {}});
  ASSERT_EQ(both.cylinders.size(), 1u);
  EXPECT_EQ(both.cylinders[0].residualMm, 0);
  EXPECT_EQ(both.cylinders[0].radiusMm, 2);
  EXPECT_EQ(both.cylinders[0].toMm, 9);
}

TEST(ExactFeatures, OthersStayAsTheyWereFound) {
  const Features found = featuresOf(shapes::cylinder(2, 0, 9, 48));
  for (const auto& change : std::vector<std::function<void(CylinderFeature&)>>{
           [](CylinderFeature& f) { f.outward = false; }, [](CylinderFeature& f) { f.radiusMm = 2.1; },
           [](CylinderFeature& f) { f.through.x() = 0.1; },
           [](CylinderFeature& f) { f.along = Vector3d(0.1, 0, 1).normalized(); },
           [](CylinderFeature& f) { f.fromMm = 10, f.toMm = 12; }}) {
    CylinderFeature other = exactPin();
    change(other);
    const Features both = withExact(found, {{other}, {}});
    ASSERT_EQ(both.cylinders.size(), 1u);
    EXPECT_NEAR(both.cylinders[0].toMm - both.cylinders[0].fromMm, 9, 1e-6);
    EXPECT_TRUE(both.cylinders[0].outward);
    EXPECT_NEAR(both.cylinders[0].radiusMm, 2, 1e-6);
  }
}

// Mirrored in x = 0, doubled, moved by (1, 2, 3): radius and lengths double, the axis goes along.
TEST(ExactFeatures, FollowScaleMirrorAndPlace) {
  CylinderFeature pin = exactPin();
  pin.through = {5, 0, 0};
  pin.along = Vector3d(1, 0, 1).normalized();
  BallFeature ball;
  ball.centre = {5, 6, 7};
  ball.radiusMm = 1.5;
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear() = Vector3d(-2, 2, 2).asDiagonal();
  X.translation() = Vector3d(1, 2, 3);
  const Features moved = transformed({{pin}, {ball}}, X);
  EXPECT_LT((moved.cylinders[0].through - Vector3d(-9, 2, 3)).norm(), 1e-12);
  EXPECT_LT((moved.cylinders[0].along - Vector3d(-1, 0, 1).normalized()).norm(), 1e-12);
  EXPECT_NEAR(moved.cylinders[0].radiusMm, 4, 1e-12);
  EXPECT_NEAR(moved.cylinders[0].toMm, 18, 1e-12);
  EXPECT_LT((moved.balls[0].centre - Vector3d(-9, 14, 17)).norm(), 1e-12);
  EXPECT_NEAR(moved.balls[0].radiusMm, 3, 1e-12);
}

}  // namespace
}  // namespace swingroom
