#include "app/viewport/painters/overlap_mask.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

const ViewSize kPicture{800, 600};

ViewProjection parallelFront(double spanMm) {
  ViewCamera camera;  // From in front: y to the right, z up.
  camera.perspective = false, camera.spanMm = spanMm;
  return {camera, kPicture};
}

struct Covered {
  int samples = 0;
  int left = 1 << 20, right = -1, top = 1 << 20, bottom = -1;  ///< Pixels of the samples' corners.
};

Covered coveredBy(const OverlapMask& mask) {
  Covered covered;
  for (int row = 0; row < mask.rows; ++row) {
    for (int column = 0; column < mask.columns; ++column) {
      if (!mask.inside(column, row)) continue;
      ++covered.samples;
      const int x = mask.left + column * mask.pixelsASample,
                y = mask.top + row * mask.pixelsASample;
      covered.left = std::min(covered.left, x),
      covered.right = std::max(covered.right, x + mask.pixelsASample);
      covered.top = std::min(covered.top, y),
      covered.bottom = std::max(covered.bottom, y + mask.pixelsASample);
    }
  }
  return covered;
}

ViewMesh boxMesh(const Vector3d& low, const Vector3d& high) {
  return makeViewMesh(shapes::box(low, high));
}

// Common box: y 12 to 20, z 7 to 20; 6 pixels a mm. A sample's middle decides: exact to a pixel a
// side.
TEST(OverlapMask, TwoBoxesOverlapInTheRectangleThatTheyShare) {
  const ViewMesh a = boxMesh({0, 0, 0}, {20, 20, 20}), b = boxMesh({0, 0, 0}, {20, 20, 20});
  const Pose X_WB = translation({15, 12, 7});
  for (const int step : {1, 2}) {
    const Covered covered =
        coveredBy(overlapMask(a, Pose::Identity(), b, X_WB, parallelFront(100), step));
    EXPECT_NEAR(covered.left, 400 + 12 * 6, step);
    EXPECT_NEAR(covered.right, 400 + 20 * 6, step);
    EXPECT_NEAR(covered.top, 300 - 20 * 6, step);
    EXPECT_NEAR(covered.bottom, 300 - 7 * 6, step);
    EXPECT_EQ(covered.samples,
              (covered.right - covered.left) * (covered.bottom - covered.top) / (step * step));
  }
}

TEST(OverlapMask, OneBehindTheOtherOrTouchingIsNone) {
  const ViewMesh a = boxMesh({0, 0, 0}, {20, 20, 20});
  for (const Vector3d& off :
       {Vector3d(30, 5, 5), Vector3d(20, 5, 5), Vector3d(5, 20, 5), Vector3d(20.001, 0, 0)}) {
    EXPECT_TRUE(
        overlapMask(a, Pose::Identity(), a, translation(off), parallelFront(100), 1).empty())
        << off;
  }
  EXPECT_FALSE(
      overlapMask(a, Pose::Identity(), a, translation({19.99, 5, 5}), parallelFront(100), 1)
          .empty());
}

// A sphere of radius r, its middle d before the eye, is seen as a disc of f r / sqrt(d^2 - r^2)
// pixels.
TEST(OverlapMask, ASphereHiddenInABoxIsSeenWholly) {
  ViewCamera camera;
  camera.spanMm = 100;
  const ViewMesh ball = makeViewMesh(shapes::sphere(15, 5)),
                 box = boxMesh({-25, -25, -25}, {25, 25, 25});
  const OverlapMask mask = overlapMask(ball, Pose::Identity(), box, Pose::Identity(),
                                       ViewProjection(camera, kPicture), 1);
  const double f = 300 / std::tan(kViewAngleRad / 2), d = camera.distanceMm();
  const double radius = f * 15 / std::sqrt(d * d - 15 * 15);
  // The facets of 1 / 32 of an icosahedron's edge lie up to 0.02 % within the sphere, the samples
  // are exact to a pixel or so along the rim.
  EXPECT_NEAR(coveredBy(mask).samples, kPi * radius * radius, 0.01 * kPi * radius * radius);
}

TEST(OverlapMask, AnOpenSurfaceHoldsNothing) {
  TriangleMesh open = shapes::box({0, 0, 0}, {20, 20, 20});
  std::erase_if(open.triangles, [&](const Triangle& t) {  // Without its front at x = 20.
    return std::all_of(t.begin(), t.end(),
                       [&](std::uint32_t v) { return open.vertices[v].x() == 20; });
  });
  const ViewMesh a = makeViewMesh(open), b = boxMesh({5, 5, 5}, {15, 15, 15});
  EXPECT_TRUE(overlapMask(a, Pose::Identity(), b, Pose::Identity(), parallelFront(100), 1).empty());
}

// Sampled along rays from every side, the common volume of random solids must be found wherever a
// point that lies in both is seen.
TEST(OverlapMask, APointInBothIsCoveredFromEverySide) {
  std::mt19937_64 random(21);
  const ViewMesh a = makeViewMesh(shapes::torus(12, 6, 40, 24)),
                 b = makeViewMesh(shapes::capsule(5, 10, 24));
  for (int i = 0; i < 60; ++i) {
    const Pose X_WA = shapes::randomPose(random, 3);
    // The ring's middle line goes through (12, 0, 0); the capsule's axis through its own origin.
    const Pose X_WB = X_WA * translation({12, 0, 0}) * shapes::randomPose(random, 0);
    ViewCamera camera;
    camera.yawRad = 0.1 * i, camera.pitchRad = 0.02 * (i - 30), camera.perspective = i % 2 == 0;
    const ViewProjection view(camera, kPicture);
    const OverlapMask mask = overlapMask(a, X_WA, b, X_WB, view, 1);
    ASSERT_FALSE(mask.empty());
    const Eigen::Vector2d seen = view.pixel(X_WA * Vector3d(12, 0, 0));
    EXPECT_TRUE(
        mask.inside(static_cast<int>(seen.x()) - mask.left, static_cast<int>(seen.y()) - mask.top));
  }
}

}  // namespace
}  // namespace swingroom
