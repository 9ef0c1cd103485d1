#include "core/mesh/weld.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "core/mesh/health.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

/// Every triangle with three vertices of its own, as in an STL file.
TriangleMesh loosened(const TriangleMesh& mesh) {
  TriangleMesh loose;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto first = static_cast<std::uint32_t>(loose.vertices.size());
    for (int i = 0; i < 3; ++i) loose.vertices.push_back(mesh.corner(t, i));
    loose.triangles.push_back({first, first + 1, first + 2});
  }
  return loose;
}

TEST(Welding, CubeOfTwelveLooseTrianglesHasEightVertices) {
  const TriangleMesh loose = loosened(shapes::box({0, 0, 0}, {1, 1, 1}));
  ASSERT_EQ(loose.vertices.size(), 36u);
  const TriangleMesh mesh = welded(loose);
  EXPECT_EQ(mesh.vertices.size(), 8u);
  EXPECT_TRUE(examine(mesh).closed());
}

TEST(Welding, KeepsTrianglesAndTheirOrder) {
  const TriangleMesh loose = loosened(shapes::sphere(5, 2));
  const TriangleMesh mesh = welded(loose);
  ASSERT_EQ(mesh.triangles.size(), loose.triangles.size());
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    for (int i = 0; i < 3; ++i) EXPECT_EQ(mesh.corner(t, i), loose.corner(t, i));
  }
}

TEST(Welding, NumbersVerticesByFirstUse) {
  const TriangleMesh mesh{{{9, 9, 9}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, {{3, 1, 2}}};
  const TriangleMesh expected{{{0, 0, 1}, {1, 0, 0}, {0, 1, 0}}, {{0, 1, 2}}};
  EXPECT_EQ(welded(mesh), expected);
}

TEST(Welding, TakesMinusZeroAsZero) {
  const TriangleMesh mesh{{{0.0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {-0.0, -0.0, 0}, {0, 0, 1}},
                          {{0, 1, 2}, {3, 2, 4}}};
  const TriangleMesh result = welded(mesh);
  EXPECT_EQ(result.vertices.size(), 4u);
  EXPECT_EQ(result.triangles[0][0], result.triangles[1][0]);
  EXPECT_FALSE(
      std::signbit(welded({{{-0.0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, {{0, 1, 2}}}).vertices[0].x()));
}

TEST(Welding, LeavesNearlyEqualVerticesApart) {
  const TriangleMesh mesh{{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {1e-15, 0, 0}, {0, 0, 1}},
                          {{0, 1, 2}, {3, 2, 4}}};
  EXPECT_EQ(welded(mesh).vertices.size(), 5u);
}

TEST(Welding, OfAWeldedMeshChangesNothing) {
  const TriangleMesh mesh = welded(loosened(shapes::torus(30, 10, 16, 8)));
  EXPECT_EQ(welded(mesh), mesh);
}

TEST(Welding, OfNothingIsNothing) {
  EXPECT_EQ(welded({}), TriangleMesh{});
}

TEST(Welding, RefusesAnIndexThatIsNotThere) {
  EXPECT_THROW(welded({{{0, 0, 0}}, {{0, 0, 1}}}), std::out_of_range);
}

}  // namespace
}  // namespace swingroom
