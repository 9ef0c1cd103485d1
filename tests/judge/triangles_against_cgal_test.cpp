// Distances of pairs of triangles, segments and points against CGAL in exact arithmetic.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/base/transform.h"
#include "core/mesh/closest_points.h"
#include "tests/judge/cgal_judge.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr unsigned kTriangleSeed = 1984;

Vector3d randomPoint(std::mt19937_64& random) {
  std::uniform_real_distribution<double> coordinate(-1, 1);
  return {coordinate(random), coordinate(random), coordinate(random)};
}

TriangleCorners randomTriangle(std::mt19937_64& random) {
  return {randomPoint(random), randomPoint(random), randomPoint(random)};
}

/// Corners on whole numbers 0 to 3: many pairs touch, cross in an edge, lie in one plane or are
/// parallel.
TriangleCorners latticeTriangle(std::mt19937_64& random) {
  std::uniform_int_distribution<int> coordinate(0, 3);
  TriangleCorners t;
  do {
    for (Vector3d& corner : t)
      corner = Vector3d(coordinate(random), coordinate(random), coordinate(random));
  } while ((t[1] - t[0]).cross(t[2] - t[0]).squaredNorm() < 0.5);
  return t;
}

TriangleCorners placed(const Pose& X, TriangleCorners t) {
  for (Vector3d& corner : t) corner = X * corner;
  return t;
}

/// Ours equals the judge's within `tolerance`, and the points are where they say: on both triangles
/// and as far apart as told.
void expectAgreement(const TriangleCorners& a, const TriangleCorners& b, double tolerance) {
  const ClosestPoints ours = closestBetweenTriangles(a, b);
  ASSERT_NEAR(ours.distanceMm, std::sqrt(judge::squaredDistance(a, b)), tolerance);
  ASSERT_NEAR((ours.onB - ours.onA).norm(), ours.distanceMm, tolerance);
  ASSERT_LT(std::sqrt(judge::squaredDistance(ours.onA, a)), tolerance);
  ASSERT_LT(std::sqrt(judge::squaredDistance(ours.onB, b)), tolerance);
}

// Coordinates below 4: 1e-13 is some hundred roundings.
TEST(TrianglesAgainstCgal, RandomPairsAgree) {
  std::mt19937_64 random(kTriangleSeed);
  for (int i = 0; i < 4000; ++i) {
    const Vector3d apart = 2 * randomPoint(random);
    const TriangleCorners a = randomTriangle(random);
    const TriangleCorners b = placed(Pose(translation(apart)), randomTriangle(random));
    SCOPED_TRACE(testing::Message() << "seed " << kTriangleSeed << ", pair " << i);
    expectAgreement(a, b, 1e-13);
    if (HasFatalFailure()) return;
  }
}

TEST(TrianglesAgainstCgal, LatticePairsAgree) {
  std::mt19937_64 random(kTriangleSeed + 1);
  for (int i = 0; i < 6000; ++i) {
    const TriangleCorners a = latticeTriangle(random), b = latticeTriangle(random);
    SCOPED_TRACE(testing::Message() << "seed " << kTriangleSeed + 1 << ", pair " << i);
    expectAgreement(a, b, 1e-13);
    if (HasFatalFailure()) return;
  }
}

// Whole coordinates and no division before the sign is known: touching is seen as touching,
// exactly.
TEST(TrianglesAgainstCgal, LatticePairsMeetExactlyWhenTheyDo) {
  std::mt19937_64 random(kTriangleSeed + 2);
  for (int i = 0; i < 6000; ++i) {
    const TriangleCorners a = latticeTriangle(random), b = latticeTriangle(random);
    if (judge::meet(a, b)) {
      ASSERT_LT(closestBetweenTriangles(a, b).distanceMm, 1e-15)
          << "seed " << kTriangleSeed + 2 << ", pair " << i;
    } else {
      ASSERT_GT(closestBetweenTriangles(a, b).distanceMm, 0)
          << "seed " << kTriangleSeed + 2 << ", pair " << i;
    }
  }
}

TEST(TrianglesAgainstCgal, TurnedLatticePairsAgree) {
  std::mt19937_64 random(kTriangleSeed + 3);
  for (int i = 0; i < 3000; ++i) {
    const Pose X = shapes::randomPose(random, 2);
    const TriangleCorners a = placed(X, latticeTriangle(random)),
                          b = placed(X, latticeTriangle(random));
    SCOPED_TRACE(testing::Message() << "seed " << kTriangleSeed + 3 << ", pair " << i);
    expectAgreement(a, b, 1e-13);
    if (HasFatalFailure()) return;
  }
}

// Flush faces: in one plane, side by side, in turned poses. Which side of the plane a corner is on
// is then rounding only.
TEST(TrianglesAgainstCgal, PairsInOnePlaneAgree) {
  std::mt19937_64 random(kTriangleSeed + 7);
  for (int i = 0; i < 2000; ++i) {
    TriangleCorners a = randomTriangle(random), b = randomTriangle(random);
    for (int k = 0; k < 3; ++k) {
      a[k].z() = b[k].z() = 0;
      b[k].x() += 2;
    }
    const Pose X = shapes::randomPose(random, 2);
    SCOPED_TRACE(testing::Message() << "seed " << kTriangleSeed + 7 << ", pair " << i);
    expectAgreement(placed(X, a), placed(X, b), 1e-13);
    if (HasFatalFailure()) return;
  }
}

// Slivers 1 long and 1e-6 wide, as tessellated rounds have them.
TEST(TrianglesAgainstCgal, SliversAgree) {
  std::mt19937_64 random(kTriangleSeed + 4);
  const auto sliver = [&] {
    TriangleCorners t = randomTriangle(random);
    t[2] = t[0] + 0.4 * (t[1] - t[0]) + 1e-6 * t[2];
    return t;
  };
  for (int i = 0; i < 4000; ++i) {
    const TriangleCorners a = sliver(), b = sliver();
    SCOPED_TRACE(testing::Message() << "seed " << kTriangleSeed + 4 << ", pair " << i);
    expectAgreement(a, b, 1e-12);
    if (HasFatalFailure()) return;
  }
}

TEST(SegmentsAgainstCgal, RandomAndNearlyParallelSegmentsAgree) {
  std::mt19937_64 random(kTriangleSeed + 5);
  for (int i = 0; i < 6000; ++i) {
    const Vector3d a0 = randomPoint(random), a1 = randomPoint(random), b0 = randomPoint(random);
    const double spread = std::pow(10.0, -(i % 16));
    const Vector3d b1 = b0 + 0.7 * (a1 - a0) + spread * randomPoint(random);
    const ClosestPoints ours = closestBetweenSegments(a0, a1, b0, b1);
    const double judged =
        std::sqrt(judge::squaredDistance(judge::Ends{a0, a1}, judge::Ends{b0, b1}));
    ASSERT_NEAR(ours.distanceMm, judged, 1e-13)
        << "seed " << kTriangleSeed + 5 << ", pair " << i << ", spread " << spread;
  }
}

TEST(PointsAgainstCgal, NearestPointOfATriangleAgrees) {
  std::mt19937_64 random(kTriangleSeed + 6);
  for (int i = 0; i < 4000; ++i) {
    const TriangleCorners t = i % 2 ? randomTriangle(random) : latticeTriangle(random);
    const Vector3d p = 2 * randomPoint(random);
    const double judged = std::sqrt(judge::squaredDistance(p, t));
    ASSERT_NEAR((closestPointOnTriangle(p, t) - p).norm(), judged, 1e-13)
        << "seed " << kTriangleSeed + 6 << ", " << i;
  }
}

}  // namespace
}  // namespace swingroom
