// Triangles without area come out of every cut and of many exports: they must neither be missed nor seen where
// they are not. Expected values: closed forms on their edges.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/mesh/closest_points.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

/// Three points on one line up to rounding, within 10 of the origin.
TriangleCorners randomSliver(std::mt19937_64& random) {
  std::uniform_real_distribution<double> place(-5, 5), share(0.1, 0.9);
  const Vector3d p(place(random), place(random), place(random)), q(place(random), place(random), place(random));
  return {p, q, p + share(random) * (q - p)};
}

// An edge that crosses the sliver's own line beyond its end is on no side of any of its edges but for rounding.
TEST(DegenerateTriangles, SliverDoesNotTouchATriangleAcrossItsLineBeyondItsEnd) {
  constexpr std::uint64_t kSeed = 11;
  RecordProperty("seed", std::to_string(kSeed));
  std::mt19937_64 random(kSeed);
  std::uniform_real_distribution<double> place(-1, 1), beyond(3, 6);
  for (int round = 0; round < 20'000; ++round) {
    const TriangleCorners sliver = randomSliver(random);
    const double length = (sliver[1] - sliver[0]).norm();
    const Vector3d crossing = sliver[0] + beyond(random) * (sliver[1] - sliver[0]);
    const auto near = [&] { return Vector3d(0.3 * length * Vector3d(place(random), place(random), place(random))); };
    const Vector3d along = near();
    const TriangleCorners far = {crossing + along, crossing - 0.7 * along, crossing + near()};
    // Corners within 0.3 sqrt(3) = 0.52 lengths of a point that is 2 lengths past the end.
    ASSERT_GE(closestBetweenTriangles(sliver, far).distanceMm, 1.4 * length) << round;
    ASSERT_GE(closestBetweenTriangles(far, sliver).distanceMm, 1.4 * length) << round;
  }
}

TEST(DegenerateTriangles, SliverThroughATriangleTouchesIt) {
  const TriangleCorners plate = {Vector3d(-5, -5, 0), Vector3d(5, -5, 0), Vector3d(0, 5, 0)};
  const TriangleCorners needle = {Vector3d(0.1, 0.2, -3), Vector3d(0.1, 0.2, 4), Vector3d(0.1, 0.2, 1)};
  EXPECT_EQ(closestBetweenTriangles(plate, needle).distanceMm, 0);
  EXPECT_EQ(closestBetweenTriangles(needle, plate).distanceMm, 0);
}

TEST(DegenerateTriangles, TriangleThatIsOnePointIsAsFarAsThatPoint) {
  const TriangleCorners plate = {Vector3d(-5, -5, 0), Vector3d(5, -5, 0), Vector3d(0, 5, 0)};
  const Vector3d p(0.5, 0.25, 7);
  EXPECT_NEAR(closestBetweenTriangles(plate, {p, p, p}).distanceMm, 7, 1e-12);
  EXPECT_NEAR((closestPointOnTriangle({3, 4, 0}, {p, p, p}) - p).norm(), 0, 1e-15);
}

}  // namespace
}  // namespace swingroom
