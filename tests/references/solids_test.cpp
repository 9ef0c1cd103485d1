// Gaps of placed solids against check_values 2.3 (all K, closed form), by both of our engines: the
// second engine's query and the check's own descent with nothing moving.
//
// Meshes have their corners on the true surface, so a round one lies inside the true one by up to
// the sagitta r (1 - cos(pi / N)): a shaft's facets fall short of the shaft, a bore's facets stand
// into the bore.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "core/proximity/gap.h"
#include "core/sweep/interval_gap.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr double kGapToleranceMm = 1e-9;
constexpr int kSides = 128;

struct Measured {
  double gapMm = 0;
  Vector3d onA = Vector3d::Zero(), onB = Vector3d::Zero();
};

Measured byQuery(const TriangleMesh& a, const TriangleMesh& b, const Pose& X_AB) {
  const PlacedGap gap = gapBetween(GapModel(a), GapModel(b), X_AB);
  return {gap.meets ? 0 : gap.gapMm, gap.onA_A, gap.onB_A};
}

Measured byDescent(const TriangleMesh& a, const TriangleMesh& b, const Pose& X_AB) {
  MotionAtInstant still;
  still.X_AB = X_AB;
  const double infinite = std::numeric_limits<double>::infinity();
  const IntervalGap gap = intervalGap(BoundingTree(a), BoundingTree(b), still, 0, {0, infinite});
  return {gap.middleMm, gap.onA_A, gap.onB_A};
}

class SolidGap : public testing::TestWithParam<Measured (*)(const TriangleMesh&,
                                                            const TriangleMesh&, const Pose&)> {
 protected:
  /// Asked both ways round.
  double gapOf(const TriangleMesh& a, const TriangleMesh& b, const Pose& X_AB) const {
    const double there = GetParam()(a, b, X_AB).gapMm;
    const double back = GetParam()(b, a, X_AB.inverse()).gapMm;
    EXPECT_NEAR(there, back, kGapToleranceMm);
    return there;
  }
};

INSTANTIATE_TEST_SUITE_P(BothEngines, SolidGap, testing::Values(byQuery, byDescent),
                         [](const auto& engine) {
                           return engine.param == byQuery ? "Query" : "Descent";
                         });

TriangleMesh unitCube() {
  return shapes::box(Vector3d::Constant(-0.5), Vector3d::Constant(0.5));
}

/// Frame with its z axis along `axis` and its x axis as near as can be to `towards`.
Pose standing(const Vector3d& at, const Vector3d& axis, const Vector3d& towards) {
  Pose X = translation(at);
  const Vector3d y = axis.cross(towards).normalized();
  X.linear().col(0) = y.cross(axis);
  X.linear().col(1) = y;
  X.linear().col(2) = axis;
  return X;
}

// D-B1: 1.5 - sqrt(2) / 2.
TEST_P(SolidGap, CubeBesideACubeTurnedEdgeOn) {
  const Pose X = translation({2, 0, 0}) * rotationAbout({0, 0, 0}, {0, 0, 1}, radFromDeg(45));
  EXPECT_NEAR(gapOf(unitCube(), unitCube(), X), 0.7928932188, kGapToleranceMm);
}

// D-B2: 1.5 - sqrt(3) / 2.
TEST_P(SolidGap, CubeBesideACubeTurnedCornerOn) {
  Pose X = translation({2, 0, 0});
  X.linear() =
      Eigen::Quaterniond::FromTwoVectors(Vector3d(1, 1, 1), Vector3d(1, 0, 0)).toRotationMatrix();
  EXPECT_NEAR(gapOf(unitCube(), unitCube(), X), 0.6339745962, kGapToleranceMm);
}

/// D-C1: cylinders r 2 along x through (1,2,3) and r 1.5 along (0,3,4)/5 through (4,-2,9), each 60
/// long. Axes 6.8 apart, from foot (4,2,3) to (4,-3.44,7.08); gap 3.3.
struct CrossedCylinders {
  const Vector3d footA{4, 2, 3}, footB{4, -3.44, 7.08};
  const Vector3d towardsB = (footB - footA) / 6.8;
  const TriangleMesh a = shapes::cylinder(2, -30, 30, kSides);
  const TriangleMesh b = shapes::cylinder(1.5, -30, 30, kSides);

  /// @param cornersMeet A corner edge of each cylinder faces the other, else the middle of a facet.
  Pose X_WA(bool cornersMeet) const { return facing({1, 2, 3}, {1, 0, 0}, towardsB, cornersMeet); }
  Pose X_WB(bool cornersMeet) const {
    return facing({4, -2, 9}, {0, 0.6, 0.8}, -towardsB, cornersMeet);
  }

 private:
  static Pose facing(const Vector3d& at, const Vector3d& axis, const Vector3d& towards,
                     bool cornersMeet) {
    const double turn = cornersMeet ? 0 : kPi / kSides;
    return standing(at, axis, towards) * rotationAbout(Vector3d::Zero(), Vector3d::UnitZ(), turn);
  }
};

// D-C1, corner edges face each other: the true gap, and the surfaces' points 2 and 1.5 from the
// feet.
TEST_P(SolidGap, CrossedCylindersAreNearestBetweenTheirFeet) {
  const CrossedCylinders pair;
  const Pose X_WA = pair.X_WA(true), X_AB = X_WA.inverse() * pair.X_WB(true);
  EXPECT_NEAR(gapOf(pair.a, pair.b, X_AB), 3.3, kGapToleranceMm);
  const Measured measured = GetParam()(pair.a, pair.b, X_AB);
  EXPECT_LT((X_WA * measured.onA - (pair.footA + 2 * pair.towardsB)).norm(), 1e-6);
  EXPECT_LT((X_WA * measured.onB - (pair.footB - 1.5 * pair.towardsB)).norm(), 1e-6);
}

// D-C1, facets face each other: wider by exactly both sagittas, the most that tessellation can do.
TEST_P(SolidGap, CrossedCylindersLoseAtMostTheirSagittas) {
  const CrossedCylinders pair;
  const Pose X_AB = pair.X_WA(false).inverse() * pair.X_WB(false);
  const double lost = shapes::sagitta(2, kSides) + shapes::sagitta(1.5, kSides);
  EXPECT_NEAR(gapOf(pair.a, pair.b, X_AB), 3.3 + lost, kGapToleranceMm);
}

// D-C2: R - r - e, less the bore's sagitta, more the shaft's.
TEST_P(SolidGap, ShaftInBoreHasRadiiAndOffsetSubtracted) {
  const double R = 5, r = 4;
  const TriangleMesh bore = shapes::tube(8, R, -10, 10, kSides),
                     shaft = shapes::cylinder(r, -15, 15, kSides);
  for (const double e : {0.0, 0.25, 0.5, 0.9}) {
    for (const double directionDeg : {0.0, 17.0, 93.0}) {
      const double angle = radFromDeg(directionDeg);
      const double gap =
          gapOf(bore, shaft, translation({e * std::cos(angle), e * std::sin(angle), 0}));
      EXPECT_GE(gap, R - r - e - shapes::sagitta(R, kSides) - kGapToleranceMm)
          << e << " at " << directionDeg;
      EXPECT_LE(gap, R - r - e + shapes::sagitta(r, kSides) + kGapToleranceMm)
          << e << " at " << directionDeg;
    }
  }
}

// D-C2, negative: interference of 0.2.
TEST_P(SolidGap, ShaftTooFatForItsOffsetMeetsTheBore) {
  const TriangleMesh bore = shapes::tube(8, 5, -10, 10, kSides),
                     shaft = shapes::cylinder(4.7, -15, 15, kSides);
  EXPECT_EQ(gapOf(bore, shaft, translation({0.5, 0, 0})), 0);
}

// D-C3: 30 - 10 - 12 = 8. With as many facets in the same places the facets are parallel: 8 cos(pi
// / N).
TEST_P(SolidGap, PinThroughARing) {
  const int sides = 32;
  const TriangleMesh ring = shapes::torus(30, 10, sides, 24),
                     pin = shapes::cylinder(12, -20, 20, sides);
  EXPECT_NEAR(gapOf(ring, pin, Pose::Identity()), 8 * std::cos(kPi / sides), kGapToleranceMm);
}

// D-C3 with any turn: between the true gap less the ring's inner sagitta and more the pin's.
TEST_P(SolidGap, PinTurnedInARingStaysWithinTheSagittas) {
  const int sides = 32;
  const TriangleMesh ring = shapes::torus(30, 10, sides, 24),
                     pin = shapes::cylinder(12, -20, 20, sides);
  const Pose X = rotationAbout({0, 0, 0}, {0, 0, 1}, radFromDeg(3.3));
  const double gap = gapOf(ring, pin, X);
  EXPECT_GE(gap, 8 - shapes::sagitta(20, sides) - kGapToleranceMm);
  EXPECT_LE(gap, 8 + shapes::sagitta(12, sides) + kGapToleranceMm);
}

// D-C4: bore 5.4 long 10, pin 5: jams at 2.26818 degrees (0.001), where D = d / cos + L tan.
// Corners of both meshes lie in the plane of the tilt, where the pin jams, so the meshes jam at the
// true angle.
TEST_P(SolidGap, TiltedPinJamsInItsBoreAtTheAngleOfTheFormula) {
  const TriangleMesh bore = shapes::tube(6, 2.7, -5, 5, kSides),
                     pin = shapes::cylinder(2.5, -20, 20, kSides);
  const auto tilted = [](double angleDeg) {
    return rotationAbout({0, 0, 0}, {0, 1, 0}, radFromDeg(angleDeg));
  };
  EXPECT_GT(gapOf(bore, pin, tilted(2.26818 - 0.001)), 0);
  EXPECT_EQ(gapOf(bore, pin, tilted(2.26818 + 0.001)), 0);
}

}  // namespace
}  // namespace swingroom
