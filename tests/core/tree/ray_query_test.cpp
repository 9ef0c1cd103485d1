#include "core/tree/ray_query.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr double kNone = -1;

double hitMm(const BoundingTree& tree, const Vector3d& origin, const Vector3d& direction) {
  const auto hit = firstHit(tree, origin, direction);
  return hit ? hit->distanceMm : kNone;
}

/// Volumes of tetrahedra say on which side of the line the corners lie: another way than the one
/// under test.
double bruteMm(const BoundingTree& tree, const Vector3d& p, const Vector3d& d) {
  double best = kNone;
  for (const TriangleCorners& t : tree.triangles()) {
    const Vector3d a = t[0] - p, b = t[1] - p, c = t[2] - p;
    const double u = d.dot(c.cross(b)), v = d.dot(a.cross(c)), w = d.dot(b.cross(a));
    const bool one = u >= 0 && v >= 0 && w >= 0, other = u <= 0 && v <= 0 && w <= 0;
    if ((!one && !other) || u + v + w == 0) continue;
    const double mm = (u * a + v * b + w * c).dot(d) / (u + v + w);
    if (mm >= 0 && (best == kNone || mm < best)) best = mm;
  }
  return best;
}

Vector3d randomUnit(std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  return Vector3d(normal(random), normal(random), normal(random)).normalized();
}

// Closed form: the faces are planes.
TEST(RayQuery, BoxIsHitAtItsNearFace) {
  const BoundingTree tree(shapes::box({-1, -2, -3}, {4, 5, 6}));
  EXPECT_NEAR(hitMm(tree, {-10, 0.3, 0.2}, Vector3d::UnitX()), 9, 1e-12);
  EXPECT_NEAR(hitMm(tree, {0.1, 0.2, 20}, -Vector3d::UnitZ()), 14, 1e-12);
  const Vector3d slant = Vector3d(1, 1, 0).normalized();
  EXPECT_NEAR(hitMm(tree, {-3, 0.25, 0}, slant), 2 * std::sqrt(2.0), 1e-12);
}

TEST(RayQuery, FromInsideTheFarWallIsHit) {
  const BoundingTree tree(shapes::box({-1, -2, -3}, {4, 5, 6}));
  EXPECT_NEAR(hitMm(tree, {0.3, 0.2, 0.1}, Vector3d::UnitX()), 3.7, 1e-12);
}

TEST(RayQuery, WhatLiesBehindOrBesideIsNotHit) {
  const BoundingTree tree(shapes::box({-1, -2, -3}, {4, 5, 6}));
  EXPECT_EQ(hitMm(tree, {-10, 0, 0}, -Vector3d::UnitX()), kNone);
  EXPECT_EQ(hitMm(tree, {-10, 5.1, 0}, Vector3d::UnitX()), kNone);
  EXPECT_EQ(hitMm(BoundingTree(TriangleMesh{}), {0, 0, 0}, Vector3d::UnitX()), kNone);
}

TEST(RayQuery, TheEdgeBetweenTwoTrianglesIsNotAHole) {
  const BoundingTree tree(shapes::box({-1, -1, -1}, {1, 1, 1}));
  // The diagonals of the faces, and the corners' neighbourhood.
  for (double s = -0.99; s < 1; s += 0.01) {
    EXPECT_NEAR(hitMm(tree, {s, s, 7}, -Vector3d::UnitZ()), 6, 1e-12) << s;
    EXPECT_NEAR(hitMm(tree, {s, -s, 7}, -Vector3d::UnitZ()), 6, 1e-12) << s;
  }
}

TEST(RayQuery, NothingBeyondTheLimitIsFound) {
  const BoundingTree tree(shapes::box({-1, -1, -1}, {1, 1, 1}));
  EXPECT_FALSE(firstHit(tree, {0.1, 0.2, 7}, -Vector3d::UnitZ(), 5.9));
  EXPECT_TRUE(firstHit(tree, {0.1, 0.2, 7}, -Vector3d::UnitZ(), 6.1));
}

// Closed form: |o|^2 + 2 t o.d + t^2 = r^2. The facets lie within one sagitta below the sphere;
// seen at less than 60 degrees from square on the distance differs by at most twice that.
TEST(RayQuery, SphereIsHitWhereTheQuadraticSays) {
  constexpr double kRadius = 10;
  const BoundingTree tree(shapes::sphere(kRadius, 5));
  // An icosahedron's edge is 63.4 degrees; halved five times, and a facet's circumradius is edge /
  // sqrt 3.
  const double facet = 1.2 * radFromDeg(63.4) / 32 / std::sqrt(3.0);
  const double tolerance = 2 * kRadius * (1 - std::cos(facet));
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> aside(-0.6, 0.6);
  for (int i = 0; i < 500; ++i) {
    const Vector3d away = randomUnit(random);
    const Vector3d origin = 30 * away;
    const Vector3d aim = kRadius * aside(random) * away.unitOrthogonal();
    const Vector3d d = (aim - origin).normalized();
    const double b = origin.dot(d);
    const double exact = -b - std::sqrt(b * b - origin.squaredNorm() + kRadius * kRadius);
    EXPECT_NEAR(hitMm(tree, origin, d), exact, tolerance);
  }
}

TEST(RayQuery, AgreesWithEveryTriangleAskedInTurn) {
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> within(-12, 12);
  for (const TriangleMesh& mesh :
       {shapes::torus(8, 3, 40, 20), shapes::tube(9, 6, -4, 4, 50), shapes::capsule(3, 9, 24)}) {
    const BoundingTree tree(mesh);
    int hits = 0;
    for (int i = 0; i < 2000; ++i) {
      const Vector3d origin(within(random), within(random), within(random));
      const Vector3d d = randomUnit(random);
      const double expected = bruteMm(tree, origin, d);
      // Rounding only: both are closed formulas in double of numbers near 10.
      ASSERT_NEAR(hitMm(tree, origin, d), expected, 1e-9) << i;
      hits += expected != kNone;
    }
    EXPECT_GT(hits, 100);  // Enough for the comparison to mean something.
  }
}

}  // namespace
}  // namespace swingroom
