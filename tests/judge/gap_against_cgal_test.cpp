// Gaps of placed meshes by both of our engines against CGAL: the second engine's query and the
// check's own descent with nothing moving.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "core/proximity/gap.h"
#include "core/sweep/interval_gap.h"
#include "tests/judge/cgal_judge.h"
#include "tests/judge/pairs.h"

namespace swingroom {
namespace {

using judge::PlacedPair;

/// Relative; and absolute, of coordinates of some 50 mm, for gaps near 0.
constexpr double kRelative = 1e-9;
constexpr double kAbsolute = 1e-12;

struct Measured {
  double gapMm = 0;
  Vector3d onA = Vector3d::Zero(), onB = Vector3d::Zero();
};

Measured byQuery(const TriangleMesh& a, const TriangleMesh& b, const Pose& X_AB) {
  const PlacedGap gap = gapBetween(GapModel(a), GapModel(b), X_AB);
  EXPECT_EQ(gap.meets, gap.gapMm <= 0);
  return {gap.gapMm, gap.onA_A, gap.onB_A};
}

Measured byDescent(const TriangleMesh& a, const TriangleMesh& b, const Pose& X_AB) {
  MotionAtInstant still;
  still.X_AB = X_AB;
  const double infinite = std::numeric_limits<double>::infinity();
  const IntervalGap gap = intervalGap(BoundingTree(a), BoundingTree(b), still, 0, {0, infinite});
  EXPECT_TRUE(gap.found);
  EXPECT_LE(gap.lowerMm, gap.middleMm);
  EXPECT_GE(gap.upperMm, gap.middleMm);
  return {gap.middleMm, gap.onA_A, gap.onB_A};
}

struct Engine {
  std::string name;
  Measured (*measure)(const TriangleMesh& a, const TriangleMesh& b, const Pose& X_AB);
};

const Engine kEngines[] = {{"query", byQuery}, {"descent", byDescent}};

double tolerance(double gap) {
  return kRelative * gap + kAbsolute;
}

void expectPointsOn(const PlacedPair& pair, const TriangleMesh& placedB, const Measured& measured,
                    double judged) {
  EXPECT_NEAR((measured.onB - measured.onA).norm(), judged, tolerance(judged));
  EXPECT_NEAR(judge::squaredDistance(pair.a.mesh, measured.onA), 0, kAbsolute);
  EXPECT_NEAR(judge::squaredDistance(placedB, measured.onB), 0, kAbsolute);
}

/// Both engines, asked both ways round.
void expectAgreement(const PlacedPair& pair) {
  const TriangleMesh placedB = shapes::moved(pair.b.mesh, pair.X_AB);
  const double judged = std::sqrt(judge::squaredDistance(pair.a.mesh, placedB));
  const bool meet = judge::surfacesMeet(pair.a.mesh, placedB);
  for (const auto& [name, measure] : kEngines) {
    SCOPED_TRACE(pair.name + ", by " + name);
    const Measured there = measure(pair.a.mesh, pair.b.mesh, pair.X_AB);
    const Measured back = measure(pair.b.mesh, pair.a.mesh, pair.X_AB.inverse());
    EXPECT_NEAR(there.gapMm, judged, tolerance(judged));
    EXPECT_NEAR(back.gapMm, judged, tolerance(judged));
    EXPECT_EQ(there.gapMm <= 0, meet);
    EXPECT_EQ(back.gapMm <= 0, meet);
    if (!meet) expectPointsOn(pair, placedB, there, judged);
  }
}

TEST(GapAgainstCgal, SolidsInRandomPosesAgree) {
  for (const PlacedPair& pair : judge::randomPairs(2718, 100)) expectAgreement(pair);
}

// Some of the pairs above must cross and some must not, or the test says nothing.
TEST(JudgePairs, CrossAndDoNotCross) {
  int crossing = 0;
  for (const PlacedPair& pair : judge::randomPairs(2718, 100)) {
    crossing += judge::surfacesMeet(pair.a.mesh, shapes::moved(pair.b.mesh, pair.X_AB));
  }
  EXPECT_GT(crossing, 20);
  EXPECT_LT(crossing, 100);
}

// From 10 mm down to a nanometre, along a fixed direction from where the surfaces touch.
TEST(GapAgainstCgal, SmallGapsAgree) {
  std::mt19937_64 random(31);
  const TriangleMesh sphere = shapes::sphere(10, 2);
  for (int i = 0; i < 9; ++i) {
    Pose X = shapes::randomPose(random, 0);
    const double gap = std::pow(10.0, 1 - i);
    X.translation() = Vector3d(20 + gap, 0, 0);
    expectAgreement(
        {{"sphere", sphere}, {"sphere", sphere}, X, "spheres, gap step " + std::to_string(i)});
  }
}

// Flush: two boxes side by side, tops and fronts in common planes, 0.7 apart, both turned alike.
TEST(GapAgainstCgal, FlushBoxesBesideEachOtherAgree) {
  std::mt19937_64 random(99);
  for (int i = 0; i < 20; ++i) {
    const Pose turn = shapes::randomPose(random, 10);
    const TriangleMesh a = shapes::moved(shapes::box({0, 0, 0}, {10, 8, 6}), turn);
    const TriangleMesh b = shapes::box({10.7, 0, 0}, {20, 8, 6});
    expectAgreement(
        {{"box", a}, {"box", b}, turn, "flush boxes, seed 99, turn " + std::to_string(i)});
  }
}

// On whole numbers everything is exact: faces on faces, edges on edges, corners on corners.
TEST(GapAgainstCgal, BoxesOnALatticeAgree) {
  const TriangleMesh box = shapes::box({0, 0, 0}, {2, 2, 2});
  for (const double x : {1.0, 2.0, 3.0}) {
    for (const double y : {0.0, 1.0, 2.0, 3.0}) {
      for (const double z : {0.0, 2.0, 5.0}) {
        const Vector3d at(x, y, z);
        expectAgreement({{"box", box},
                         {"box", box},
                         translation(at),
                         testing::PrintToString(std::vector<double>{x, y, z})});
      }
    }
  }
}

TEST(GapAgainstCgal, PartWhollyInsideAnotherHasTheGapOfTheSurfaces) {
  std::mt19937_64 random(5);
  for (int i = 0; i < 10; ++i) {
    const Pose X = shapes::randomPose(random, 4);
    expectAgreement({{"sphere", shapes::sphere(20, 2)},
                     {"box", shapes::box({-3, -2, -1}, {3, 2, 1})},
                     X,
                     "nested, seed 5, pair " + std::to_string(i)});
  }
}

TEST(GapAgainstCgal, PinInItsHoleAgrees) {
  const TriangleMesh hole = shapes::tube(8, 5, -6, 6, 40), pin = shapes::cylinder(4.8, -9, 9, 36);
  for (int i = 0; i < 12; ++i) {
    const Pose X = translation({0.05 * std::cos(i), 0.05 * std::sin(i), 0.3 * i}) *
                   rotationAbout({0, 0, 0}, {0, 0, 1}, 0.37 * i);
    expectAgreement({{"hole", hole}, {"pin", pin}, X, "pin, turn " + std::to_string(i)});
  }
}

}  // namespace
}  // namespace swingroom
