#include "core/mesh/mass_properties.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/mesh/health.h"
#include "tests/support/shapes.h"

// check_values.md section 3, G-1 to G-11: status K (closed forms) unless said. Tolerance 1e-9
// relative.

namespace swingroom {
namespace {

constexpr double kRelative = 1e-9;

void expectClose(double actual, double expected) {
  EXPECT_NEAR(actual, expected, kRelative * std::max(1.0, std::abs(expected)));
}

void expectClose(const Eigen::Vector3d& actual, const Eigen::Vector3d& expected) {
  for (int k = 0; k < 3; ++k) expectClose(actual[k], expected[k]);
}

void expectPrincipal(const MassProperties& actual, const Eigen::Vector3d& diagonal) {
  const Eigen::Matrix3d expected = diagonal.asDiagonal();
  const double scale = diagonal.maxCoeff();
  EXPECT_LE((actual.inertia - expected).cwiseAbs().maxCoeff(), kRelative * scale);
}

TriangleMesh corneredTetrahedron() {
  return {{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
          {{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}}};
}

TEST(MassProperties, G1CorneredTetrahedron) {
  const MassProperties solid = massProperties(corneredTetrahedron());
  expectClose(solid.volumeMm3, 1.0 / 6);
  expectClose(solid.centroid, Eigen::Vector3d::Constant(0.25));
  const double off = 1.0 / 480;
  Eigen::Matrix3d expected = Eigen::Matrix3d::Constant(off);
  expected.diagonal().setConstant(1.0 / 80);
  EXPECT_LE((solid.inertia - expected).cwiseAbs().maxCoeff(), kRelative / 80);
  // About the origin Ixx = 1/30 and the integral of xy = 1/120: the parallel-axis theorem.
  const Eigen::Vector3d& c = solid.centroid;
  expectClose(solid.inertia(0, 0) + solid.volumeMm3 * (c.squaredNorm() - c.x() * c.x()), 1.0 / 30);
  expectClose(-solid.inertia(0, 1) + solid.volumeMm3 * c.x() * c.y(), 1.0 / 120);
}

TEST(MassProperties, G2Box) {
  const MassProperties solid = massProperties(shapes::box({0, 0, 0}, {2, 3, 4}));
  expectClose(solid.volumeMm3, 24);
  expectClose(solid.centroid, {1, 1.5, 2});
  expectPrincipal(solid, {50, 40, 26});
}

TEST(MassProperties, G3RegularTetrahedron) {
  // Edge 2: every other corner of a cube of edge sqrt(2).
  const double h = std::sqrt(0.5);
  const TriangleMesh mesh{{{h, h, h}, {h, -h, -h}, {-h, h, -h}, {-h, -h, h}},
                          {{0, 1, 2}, {0, 3, 1}, {0, 2, 3}, {1, 3, 2}}};
  const MassProperties solid = massProperties(mesh);
  expectClose(solid.volumeMm3, 8 / (6 * std::sqrt(2.0)));
  expectClose(solid.centroid, {0, 0, 0});
  expectPrincipal(solid, Eigen::Vector3d::Constant(solid.volumeMm3 * 4 / 20));
}

TEST(MassProperties, G4Octahedron) {
  const double r = std::sqrt(2.0);  // Edge 2.
  const TriangleMesh mesh{
      {{r, 0, 0}, {-r, 0, 0}, {0, r, 0}, {0, -r, 0}, {0, 0, r}, {0, 0, -r}},
      {{0, 2, 4}, {2, 1, 4}, {1, 3, 4}, {3, 0, 4}, {2, 0, 5}, {1, 2, 5}, {3, 1, 5}, {0, 3, 5}}};
  const MassProperties solid = massProperties(mesh);
  expectClose(solid.volumeMm3, std::sqrt(2.0) / 3 * 8);
  EXPECT_NEAR(solid.volumeMm3, 3.7712361663, 5e-11);
  expectPrincipal(solid, Eigen::Vector3d::Constant(solid.volumeMm3 * 4 / 10));
}

TEST(MassProperties, G5Icosahedron) {
  const double phi = (1 + std::sqrt(5.0)) / 2;
  // Edge 2 has corners (0, 1, phi) and so on, at this distance from the middle.
  const MassProperties solid = massProperties(shapes::sphere(std::sqrt(1 + phi * phi), 0));
  EXPECT_NEAR(solid.volumeMm3, 17.4535599250, 17.45 * kRelative);
  expectClose(solid.centroid, {0, 0, 0});
  expectPrincipal(solid, Eigen::Vector3d::Constant(solid.volumeMm3 * 4 * phi * phi / 10));
  EXPECT_NEAR(solid.inertia(0, 0), 18.2776052433, 18.28 * kRelative);
}

TEST(MassProperties, G6LPlate) {
  const auto plate = shapes::prism({{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 30}, {0, 30}}, 0, 10);
  const MassProperties solid = massProperties(plate);
  expectClose(solid.volumeMm3, 5000);
  expectClose(solid.centroid, {11, 11, 5});
  expectClose(solid.inertia(0, 0), 1210000.0 / 3);
  expectClose(solid.inertia(1, 1), 1210000.0 / 3);
  expectClose(solid.inertia(2, 2), 2170000.0 / 3);
  expectClose(solid.inertia(0, 1), 180000);
  EXPECT_NEAR(solid.inertia(0, 2), 0, 1e-3);
}

TEST(MassProperties, G7HollowCube) {
  const auto cube = [](double half) {
    return shapes::box(Vector3d::Constant(-half), Vector3d::Constant(half));
  };
  const auto solid = massProperties(shapes::joined({cube(10), shapes::reversed(cube(8))}));
  expectClose(solid.volumeMm3, 3904);
  expectClose(solid.centroid, {0, 0, 0});
  expectPrincipal(solid, Eigen::Vector3d::Constant((8000.0 * 400 - 4096.0 * 256) / 6));
  EXPECT_NEAR(solid.volumeMm3 * 1.24e-3, 4.84096, 1e-9);  // grams at 1.24 g/cm3
}

TEST(MassProperties, G8Prism32) {
  const MassProperties solid = massProperties(shapes::cylinder(10, 0, 20, 32));
  expectClose(solid.volumeMm3, 16 * 100 * std::sin(kPi / 16) * 20);
  EXPECT_NEAR(solid.volumeMm3, 6242.8903045, 5e-8);
  expectClose(solid.centroid, {0, 0, 10});
  expectClose(solid.inertia(2, 2) / solid.volumeMm3, 100.0 / 6 * (2 + std::cos(kPi / 16)));
}

TEST(MassProperties, G9Torus) {
  const auto faceted = [](int n, int m) {
    return n * std::sin(2 * kPi / n) * 30 * (m / 2.0) * 100 * std::sin(2 * kPi / m);
  };
  for (const auto& [n, m, printed] :
       {std::tuple{64, 32, 58743.384484}, std::tuple{128, 64, 59098.805701},
        std::tuple{256, 128, 59187.904942}}) {
    const MassProperties solid = massProperties(shapes::torus(30, 10, n, m));
    expectClose(solid.volumeMm3, faceted(n, m));
    EXPECT_NEAR(solid.volumeMm3, printed, 5e-7);
    EXPECT_LE(solid.centroid.norm(), 30 * kRelative);
  }
  const MassProperties solid = massProperties(shapes::torus(30, 10, 256, 128));
  EXPECT_NEAR(solid.inertia(2, 2) / solid.volumeMm3, 974.87201, 5e-6);
  EXPECT_NEAR(solid.inertia(0, 0) / solid.volumeMm3, 512.42596, 5e-6);
}

std::vector<std::pair<std::string, TriangleMesh>> builtShapes() {
  return {{"tetrahedron", corneredTetrahedron()},
          {"box", shapes::box({-1, -2, -3}, {4, 5, 6})},
          {"prism", shapes::prism({{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 30}, {0, 30}}, -2, 3)},
          {"cylinder", shapes::cylinder(10, 0, 20, 32)},
          {"tube", shapes::tube(10, 7, 0, 20, 32)},
          {"sphere", shapes::sphere(7, 3)},
          {"capsule", shapes::capsule(3, 50, 32)},
          {"torus", shapes::torus(30, 10, 64, 32)}};
}

TEST(MassProperties, G10ReversedSolidHasTheOppositeVolumeAndTheSameCentroid) {
  for (const auto& [name, mesh] : builtShapes()) {
    SCOPED_TRACE(name);
    const MassProperties solid = massProperties(mesh);
    const MassProperties turned = massProperties(shapes::reversed(mesh));
    EXPECT_GT(solid.volumeMm3, 0);
    expectClose(turned.volumeMm3, -solid.volumeMm3);
    expectClose(turned.centroid, solid.centroid);
    EXPECT_EQ(examine(shapes::reversed(mesh)).insideOutShells, 1u);
  }
}

TEST(MassProperties, G11ConeIsBalancedAtAQuarterOfItsHeight) {
  // True of any pyramid, so of a faceted cone too.
  TriangleMesh cone = shapes::cylinder(10, 0, 12, 48);
  const Eigen::Vector3d apex(0, 0, 12);
  for (auto& vertex : cone.vertices) {
    if (vertex.z() == 12) vertex = apex;
  }
  const MassProperties solid = massProperties(cone);
  expectClose(solid.volumeMm3, 24 * 100 * std::sin(kPi / 24) * 12 / 3);
  expectClose(solid.centroid, {0, 0, 3});
}

/// Upper half of a ball of radius 8, corners on the surface, closed by a disc at z = 0.
TriangleMesh hemisphere(int sides, int rows) {
  TriangleMesh mesh;
  const auto at = [&](int row, int side) {
    return static_cast<std::uint32_t>(row * sides + side % sides);
  };
  for (int row = 0; row < rows; ++row) {
    const double up = kPi / 2 * row / rows;
    for (int side = 0; side < sides; ++side) {
      const double turn = 2 * kPi * side / sides;
      mesh.vertices.push_back(
          8 * Vector3d(std::cos(up) * std::cos(turn), std::cos(up) * std::sin(turn), std::sin(up)));
    }
  }
  mesh.vertices.insert(mesh.vertices.end(), {{0, 0, 8}, {0, 0, 0}});
  const std::uint32_t top = at(rows, 0), middle = top + 1;
  for (int side = 0; side < sides; ++side) {
    for (int row = 0; row + 1 < rows; ++row) {
      mesh.triangles.push_back({at(row, side), at(row, side + 1), at(row + 1, side + 1)});
      mesh.triangles.push_back({at(row, side), at(row + 1, side + 1), at(row + 1, side)});
    }
    mesh.triangles.push_back({at(rows - 1, side), at(rows - 1, side + 1), top});
    mesh.triangles.push_back({middle, at(0, side + 1), at(0, side)});
  }
  return mesh;
}

TEST(MassProperties, G11HemisphereIsBalancedAtThreeEighthsOfItsRadius) {
  const int sides = 256, rows = 64;
  const TriangleMesh mesh = hemisphere(sides, rows);
  ASSERT_TRUE(examine(mesh).closed());
  const MassProperties solid = massProperties(mesh);
  // The faceted surface lies between the balls of radius `share` * 8 and 8, so its volume is at
  // least share^3 and its first moment at least share^4 of the ball's.
  const double share = std::cos(kPi / sides) * std::cos(kPi / (4 * rows));
  const double trueVolume = 2 * kPi / 3 * 512;
  EXPECT_LT(solid.volumeMm3, trueVolume);
  EXPECT_GT(solid.volumeMm3, trueVolume * std::pow(share, 3));
  EXPECT_LT(solid.centroid.z(), 3 / std::pow(share, 3));
  EXPECT_GT(solid.centroid.z(), 3 * std::pow(share, 4));
}

TEST(MassProperties, MoveWithTheSolid) {
  std::mt19937_64 random(20240501);
  const MassProperties here = massProperties(shapes::box({0, 0, 0}, {2, 3, 4}));
  for (int i = 0; i < 20; ++i) {
    const Pose X = shapes::randomPose(random, 100);
    const auto there = massProperties(shapes::moved(shapes::box({0, 0, 0}, {2, 3, 4}), X));
    const Eigen::Matrix3d turned = X.linear() * here.inertia * X.linear().transpose();
    expectClose(there.volumeMm3, here.volumeMm3);
    expectClose(there.centroid, X * here.centroid);
    EXPECT_LE((there.inertia - turned).cwiseAbs().maxCoeff(), 50 * kRelative);
  }
}

TEST(MassProperties, OfNothingAreZero) {
  EXPECT_EQ(massProperties({}).volumeMm3, 0);
  EXPECT_EQ(massProperties({{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, {{0, 1, 2}}}).volumeMm3, 0);
}

TEST(TestShapes, AreClosedAndFaceOutwards) {
  for (const auto& [name, mesh] : builtShapes()) {
    SCOPED_TRACE(name);
    const MeshHealth health = examine(mesh);
    EXPECT_TRUE(health.closed());
    EXPECT_GT(health.volumeMm3, 0);
    EXPECT_EQ(health.openEdges + health.nonManifoldEdges + health.zeroAreaTriangles, 0u);
    EXPECT_EQ(health.shells.size(), 1u);
    EXPECT_EQ(health.insideOutShells, 0u);
  }
}

// Closed forms of the faceted solids.
TEST(TestShapes, HaveTheirVolumes) {
  const double ring = 16 * std::sin(kPi / 16);  // Area of a regular 32-gon on the unit circle.
  expectClose(massProperties(shapes::tube(10, 7, 0, 20, 32)).volumeMm3, ring * (100 - 49) * 20);
  const double ball = 4 * kPi / 3 * 343;
  const double faceted = massProperties(shapes::sphere(7, 4)).volumeMm3;
  EXPECT_LT(faceted, ball);
  EXPECT_GT(faceted,
            ball * 0.99);  // 5120 facets; an edge spans at most 4.2 degrees: 3 * (1 - cos 2.1 deg).
  const double pill = massProperties(shapes::capsule(3, 50, 64)).volumeMm3;
  const double truePill = kPi * 9 * 50 + 4 * kPi / 3 * 27;
  EXPECT_LT(pill, truePill);
  EXPECT_GT(pill, truePill * std::pow(std::cos(kPi / 64), 6));
}

}  // namespace
}  // namespace swingroom
