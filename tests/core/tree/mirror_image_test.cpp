#include "core/tree/mirror_image.h"

#include <gtest/gtest.h>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

const Vector3d kX = Vector3d::UnitX();

TEST(MirrorImage, ABoxIsItsOwnInItsMiddlePlanesOnly) {
  const TriangleMesh box = shapes::box({1, 2, 3}, {5, 8, 4});
  EXPECT_TRUE(isOwnMirrorImage(box, {3, 0, 0}, kX));
  EXPECT_TRUE(isOwnMirrorImage(box, {0, 5, 0}, {0, -2, 0}));
  EXPECT_FALSE(isOwnMirrorImage(box, {3.01, 0, 0}, kX)) << "0.02 mm off at its sides";
  EXPECT_FALSE(isOwnMirrorImage(box, {3, 5, 3.5}, {1, 1, 0})) << "its sides are unlike";
  EXPECT_FALSE(isOwnMirrorImage(box, {0, 0, 0}, kX)) << "it stands beside the plane";
}

/// The fans of its ends are cut otherwise than their reflections: the surface counts, not its cuts.
TEST(MirrorImage, ACylinderIsItsOwnAcrossAndAlong) {
  const TriangleMesh cylinder = shapes::cylinder(3, -4, 4, 24);
  EXPECT_TRUE(isOwnMirrorImage(cylinder, kOrigin, kZ));
  EXPECT_TRUE(isOwnMirrorImage(cylinder, kOrigin, kX));
  EXPECT_FALSE(isOwnMirrorImage(shapes::cylinder(3, -4, 5, 24), kOrigin, kZ));
}

/// A prism over a triangle with three unlike sides has the plane between its ends and no other.
TEST(MirrorImage, AHandedShapeIsNot) {
  const TriangleMesh wedge = shapes::prism({{0, 0}, {7, 0}, {1, 4}}, -2, 2);
  EXPECT_TRUE(isOwnMirrorImage(wedge, kOrigin, kZ));
  EXPECT_FALSE(isOwnMirrorImage(wedge, {3.5, 0, 0}, kX));
  EXPECT_THROW(isOwnMirrorImage(wedge, kOrigin, kOrigin), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
