#include "core/mesh/health.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "core/mesh/weld.h"
#include "tests/support/shapes.h"

// Expected counts are read off the small meshes by hand; volumes are closed forms.

namespace swingroom {
namespace {

using shapes::box;
using shapes::joined;
using shapes::reversed;

TriangleMesh cube(double half) {
  return box(Vector3d::Constant(-half), Vector3d::Constant(half));
}

bool anyNoteSays(const TriangleMesh& mesh, const std::string& words) {
  for (const std::string& note : healthNotes(mesh, examine(mesh))) {
    if (note.find(words) != std::string::npos) return true;
  }
  return false;
}

TEST(MeshHealth, CubeIsSound) {
  const TriangleMesh mesh = cube(5);
  const MeshHealth health = examine(mesh);
  EXPECT_TRUE(health.closed());
  EXPECT_EQ(health.openEdges, 0u);
  EXPECT_EQ(health.nonManifoldEdges, 0u);
  EXPECT_EQ(health.zeroAreaTriangles, 0u);
  EXPECT_EQ(health.repeatedTriangles, 0u);
  EXPECT_EQ(health.insideOutShells, 0u);
  ASSERT_EQ(health.shells.size(), 1u);
  EXPECT_EQ(health.shells[0].triangles.size(), 12u);
  EXPECT_DOUBLE_EQ(health.volumeMm3, 1000);
  EXPECT_TRUE(healthNotes(mesh, health).empty());
}

TEST(MeshHealth, CubeWithoutOneTriangleHasThreeOpenEdges) {
  TriangleMesh mesh = cube(5);
  mesh.triangles.pop_back();
  const MeshHealth health = examine(mesh);
  EXPECT_EQ(health.openEdges, 3u);
  EXPECT_FALSE(health.closed());
  EXPECT_EQ(health.volumeMm3, 0);
  const auto notes = healthNotes(mesh, health);
  ASSERT_EQ(notes.size(), 1u);
  EXPECT_EQ(
      notes[0],
      "3 open edges: its inside is not defined, so it is checked as a surface and 'inside another "
      "part' is not judged");
}

TEST(MeshHealth, OneTriangleIsThreeOpenEdgesAndOneShell) {
  const MeshHealth health = examine({{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, {{0, 1, 2}}});
  EXPECT_EQ(health.openEdges, 3u);
  EXPECT_EQ(health.shells.size(), 1u);
}

TEST(MeshHealth, NothingIsNotClosed) {
  EXPECT_FALSE(examine({}).closed());
  EXPECT_EQ(healthNotes({}, {}).size(), 1u);
}

// check_values G-7 (K): 20 outside, 16 inside, 3904.
TEST(MeshHealth, HollowCubeIsSound) {
  const TriangleMesh mesh = joined({cube(10), reversed(cube(8))});
  const MeshHealth health = examine(mesh);
  EXPECT_TRUE(health.closed());
  ASSERT_EQ(health.shells.size(), 2u);
  EXPECT_DOUBLE_EQ(health.shells[0].volumeMm3, 8000);
  EXPECT_DOUBLE_EQ(health.shells[1].volumeMm3, -4096);
  EXPECT_DOUBLE_EQ(health.volumeMm3, 3904);
  EXPECT_EQ(health.insideOutShells, 0u);
  EXPECT_TRUE(healthNotes(mesh, health).empty());
}

TEST(MeshHealth, SolidInsideASolidIsNotInsideOut) {
  EXPECT_EQ(examine(joined({cube(10), cube(8)})).insideOutShells, 0u);
}

TEST(MeshHealth, SolidInACavityIsSound) {
  EXPECT_EQ(examine(joined({cube(10), reversed(cube(8)), cube(5)})).insideOutShells, 0u);
}

TEST(MeshHealth, CavityOfASolidInACavityIsSound) {
  const auto mesh = joined({cube(10), reversed(cube(8)), cube(5), reversed(cube(3))});
  EXPECT_EQ(examine(mesh).insideOutShells, 0u);
}

TEST(MeshHealth, ReversedSolidInACavityIsInsideOut) {
  EXPECT_EQ(examine(joined({cube(10), reversed(cube(8)), reversed(cube(5))})).insideOutShells, 1u);
}

TEST(MeshHealth, ReversedSolidBesideASolidIsInsideOut) {
  const auto other = shapes::moved(reversed(cube(8)), translation({30, 0, 0}));
  EXPECT_EQ(examine(joined({cube(10), other})).insideOutShells, 1u);
}

TEST(MeshHealth, HollowCubeTurnedRoundHasOneInsideOutShell) {
  const auto mesh = reversed(joined({cube(10), reversed(cube(8))}));
  EXPECT_EQ(examine(mesh).insideOutShells, 1u);
}

// check_values G-10 (K).
TEST(MeshHealth, AnyReversedSolidIsInsideOut) {
  const std::vector<TriangleMesh> solids = {
      cube(1), shapes::sphere(3, 3), shapes::torus(30, 10, 64, 32), shapes::tube(5, 3, 0, 8, 24),
      shapes::capsule(3, 50, 24)};
  for (const TriangleMesh& solid : solids) {
    const TriangleMesh turned = reversed(solid);
    EXPECT_EQ(examine(solid).insideOutShells, 0u);
    EXPECT_EQ(examine(turned).insideOutShells, 1u);
    EXPECT_TRUE(anyNoteSays(turned, "1 closed piece is inside-out"));
  }
}

// Walls along the same planes and diagonals: rays meet edges and corners of the outer shell.
TEST(MeshHealth, CavitiesOnARegularGridAreSound) {
  std::vector<TriangleMesh> shells = {cube(16)};
  for (int x = -2; x <= 2; ++x) {
    for (int y = -2; y <= 2; ++y) {
      for (int z = -2; z <= 2; ++z) {
        shells.push_back(shapes::moved(reversed(cube(2)), translation(6.0 * Vector3d(x, y, z))));
      }
    }
  }
  const MeshHealth health = examine(joined(shells));
  EXPECT_EQ(health.shells.size(), 126u);
  EXPECT_EQ(health.insideOutShells, 0u);
  shells.erase(shells.begin());
  EXPECT_EQ(examine(joined(shells)).insideOutShells, 125u);
}

TEST(MeshHealth, TwoCubesAlongACommonEdgeAreNonManifoldAndClosed) {
  const TriangleMesh mesh = welded(joined({box({0, 0, 0}, {1, 1, 1}), box({1, 1, 0}, {2, 2, 1})}));
  const MeshHealth health = examine(mesh);
  EXPECT_EQ(health.nonManifoldEdges, 1u);
  EXPECT_TRUE(health.closed());
  EXPECT_EQ(health.shells.size(), 1u);
  EXPECT_DOUBLE_EQ(health.volumeMm3, 2);
  EXPECT_TRUE(
      anyNoteSays(mesh, "1 edge with three triangles or more: its inside is still defined"));
}

TEST(MeshHealth, TwoCubesAtACommonCornerAreTwoShells) {
  const auto mesh = welded(joined({box({0, 0, 0}, {1, 1, 1}), box({1, 1, 1}, {2, 2, 2})}));
  EXPECT_EQ(mesh.vertices.size(), 15u);
  EXPECT_EQ(examine(mesh).shells.size(), 2u);
}

TEST(MeshHealth, FinOnACubeOpensIt) {
  TriangleMesh mesh = cube(5);
  mesh.vertices.push_back({0, 0, 20});
  const Triangle& first = mesh.triangles.front();
  mesh.triangles.push_back({first[0], first[1], 8});
  const MeshHealth health = examine(mesh);
  EXPECT_EQ(health.nonManifoldEdges, 1u);
  EXPECT_EQ(health.openEdges, 2u);
  EXPECT_FALSE(health.closed());
}

TEST(MeshHealth, OneTurnedTriangleMeansNotClosed) {
  TriangleMesh mesh = cube(5);
  std::swap(mesh.triangles[3][0], mesh.triangles[3][1]);
  const MeshHealth health = examine(mesh);
  EXPECT_EQ(health.openEdges, 0u);
  EXPECT_EQ(health.nonManifoldEdges, 0u);
  EXPECT_FALSE(health.closed());
  EXPECT_TRUE(anyNoteSays(mesh, "neighbouring triangles face opposite ways"));
}

TEST(MeshHealth, CountsTrianglesWithoutArea) {
  TriangleMesh mesh = cube(5);
  mesh.vertices.insert(mesh.vertices.end(), {{0, 0, 0}, {1, 1, 1}, {2, 2, 2}});  // 8 9 10
  mesh.vertices.insert(mesh.vertices.end(),
                       {{9, 0, 0}, {9 + 1e-7, 0, 0}, {9, 1e-7, 0}});  // 11 12 13
  mesh.triangles.push_back({0, 0, 1});
  mesh.triangles.push_back({8, 9, 10});
  mesh.triangles.push_back({11, 12, 13});  // 5e-15 mm2
  const MeshHealth health = examine(mesh);
  EXPECT_EQ(health.zeroAreaTriangles, 3u);
  EXPECT_TRUE(anyNoteSays(mesh, "3 triangles have no area"));
}

TEST(MeshHealth, TriangleWithTwoEqualCornersDoesNotOpenACube) {
  TriangleMesh mesh = cube(5);
  mesh.triangles.push_back({0, 0, 1});
  const MeshHealth health = examine(mesh);
  EXPECT_EQ(health.zeroAreaTriangles, 1u);
  EXPECT_EQ(health.nonManifoldEdges, 0u);
  EXPECT_TRUE(health.closed());
}

TEST(MeshHealth, CountsRepeatedTrianglesInAnyOrderOfCorners) {
  TriangleMesh mesh = cube(5);
  const auto [a, b, c] = mesh.triangles[4];
  mesh.triangles.push_back({b, c, a});
  mesh.triangles.push_back({c, b, a});
  EXPECT_EQ(examine(mesh).repeatedTriangles, 2u);
  EXPECT_TRUE(anyNoteSays(mesh, "2 triangles repeat an earlier one"));
}

TEST(MeshHealth, SheetWithTwoSidesIsClosedAndHasNoInsideOut) {
  for (const double x : {0.1, 0.3, 0.7, 1.1, 1.3}) {
    const TriangleMesh sheet{{{x, 0.1, 0.7}, {0.2, x, 0.3}, {0.9, 0.5, x}, {0.4, 0.8, 0.2}},
                             {{0, 1, 2}, {1, 3, 2}, {0, 2, 1}, {1, 2, 3}}};
    const MeshHealth health = examine(sheet);
    EXPECT_TRUE(health.closed());
    EXPECT_EQ(health.insideOutShells, 0u);
  }
}

TEST(MeshHealth, SizeOutsideOneMillimetreToTwoMetresIsCalledAnotherUnit) {
  EXPECT_TRUE(anyNoteSays(cube(0.02), "its largest extent is 0.04 mm"));
  EXPECT_TRUE(anyNoteSays(cube(1250), "its largest extent is 2500 mm"));
  EXPECT_TRUE(healthNotes(cube(0.5), examine(cube(0.5))).empty());
  EXPECT_TRUE(healthNotes(cube(1000), examine(cube(1000))).empty());
}

TEST(MeshHealth, FarFromTheOriginVolumeKeepsItsDigits) {
  const auto mesh = shapes::moved(cube(0.5), translation({1e6, -1e6, 1e6}));
  EXPECT_NEAR(examine(mesh).volumeMm3, 1, 1e-9);
}

TEST(MeshHealth, RefusesAnIndexThatIsNotThere) {
  EXPECT_THROW(examine({{{0, 0, 0}}, {{0, 0, 1}}}), std::invalid_argument);
}

}  // namespace
}  // namespace swingroom
