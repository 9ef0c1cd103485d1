// Two solids made one, against closed forms.
#include <gtest/gtest.h>

#include <cmath>

#include "core/room/space/solid_merge.h"
#include "tests/core/room/space_fixture.h"

namespace swingroom {
namespace {

using shapes::box;

/// New corners are rounded, one surface is shifted: far below what is looked at here.
constexpr double kCloseMm3 = 1e-2;

TriangleMesh unionOf(const TriangleMesh& a, const TriangleMesh& b) {
  WorkMonitor monitor;
  const auto merge = SolidMerge::of(a, b, monitor);
  if (!merge) {
    ADD_FAILURE() << "no merge";
    return {};
  }
  TriangleMesh mesh = merge->united({});
  expectSound(mesh);
  return mesh;
}
double volumeOf(const TriangleMesh& mesh) { return massProperties(mesh).volumeMm3; }

TEST(SolidMerge, OfTwoBoxesThatOverlapCountsTheOverlapOnce) {
  const TriangleMesh a = box({0, 0, 0}, {2, 2, 2}), b = box({1, 1, 1}, {3, 3, 3});
  EXPECT_NEAR(volumeOf(unionOf(a, b)), 15, kCloseMm3);
  WorkMonitor monitor;
  const TriangleMesh common = SolidMerge::of(a, b, monitor)->common();
  expectSound(common);
  EXPECT_NEAR(volumeOf(common), 1, kCloseMm3);
}

TEST(SolidMerge, FacesThatLieOnEachOtherAreNoHindrance) {
  EXPECT_NEAR(volumeOf(unionOf(box({0, 0, 0}, {2, 2, 2}), box({1, 0, 0}, {3, 2, 2}))), 12, kCloseMm3);
  EXPECT_NEAR(volumeOf(unionOf(box({0, 0, 0}, {2, 2, 2}), box({0, 0, 0}, {2, 2, 2}))), 8, kCloseMm3);
}

TEST(SolidMerge, ARodThroughAPlateOpensItsFacesInTheirMiddles) {
  const TriangleMesh plate = box({-5, -5, -1}, {5, 5, 1}), rod = shapes::cylinder(1, -4, 4, 32);
  const double circle = 16 * std::sin(2 * kPi / 32);  // Area of a 32-gon on the unit circle.
  EXPECT_NEAR(volumeOf(unionOf(plate, rod)), 200 + circle * 6, kCloseMm3);
  WorkMonitor monitor;
  EXPECT_NEAR(volumeOf(SolidMerge::of(plate, rod, monitor)->common()), circle * 2, kCloseMm3);
}

TEST(SolidMerge, AnInnerSolidIsSwallowedAndAFarOneStaysApart) {
  EXPECT_NEAR(volumeOf(unionOf(box({0, 0, 0}, {4, 4, 4}), box({1, 1, 1}, {2, 2, 2}))), 64, kCloseMm3);
  EXPECT_NEAR(volumeOf(unionOf(box({0, 0, 0}, {1, 1, 1}), box({3, 0, 0}, {4, 1, 1}))), 2, kCloseMm3);
}

TEST(SolidMerge, APinInACavityIsJoinedWhereItReachesTheWall) {
  const TriangleMesh shell =
      shapes::joined({box({-5, -5, -5}, {5, 5, 5}), shapes::reversed(box({-4, -4, -4}, {4, 4, 4}))});
  EXPECT_NEAR(volumeOf(unionOf(shell, box({-1, -1, -4.5}, {1, 1, 0}))), 1000 - 512 + 4 * 4, kCloseMm3);
}

// Inclusion and exclusion: |A| + |B| = |A or B| + |A and B|, whatever the two are.
TEST(SolidMerge, VolumesOfRandomPlacesAddUp) {
  std::mt19937_64 random(20261126);
  const TriangleMesh ball = shapes::sphere(3, 3), ring = shapes::torus(4, 1.5, 48, 24);
  for (int i = 0; i < 40; ++i) {
    const TriangleMesh b = shapes::moved(ring, shapes::randomPose(random, 4));
    WorkMonitor monitor;
    const auto merge = SolidMerge::of(ball, b, monitor);
    ASSERT_TRUE(merge) << "case " << i << " of seed 20261126";
    const TriangleMesh either = merge->united({}), both = merge->common();
    EXPECT_NEAR(volumeOf(either) + (both.triangles.empty() ? 0 : volumeOf(both)), volumeOf(ball) + volumeOf(b),
                kCloseMm3);
    expectSound(either);
  }
}

TEST(SolidMerge, RefusesAnOpenSurface) {
  TriangleMesh open = box({0, 0, 0}, {1, 1, 1});
  open.triangles.pop_back();
  WorkMonitor monitor;
  EXPECT_FALSE(SolidMerge::of(open, box({0, 0, 0}, {1, 1, 2}), monitor));
}

TEST(ShortEdges, AreJoinedAndTheSurfaceStaysClosed) {
  // A box with an edge doubled, a millionth apart.
  TriangleMesh mesh = shapes::prism({{0, 0}, {1, 0}, {1, 1}, {1 - 1e-6, 1}, {0, 1}}, 0, 1);
  ASSERT_TRUE(examine(mesh).closed());
  joinShortEdges(mesh, 1e-5);
  EXPECT_EQ(mesh.vertices.size(), 8u);
  expectSound(mesh);
}

}  // namespace
}  // namespace swingroom
