#include "core/mesh/feature_finder.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr unsigned kFeatureSeed = 20261;

/// Of two axes over the length of the first, at worst.
double axisError(const CylinderFeature& found, const Vector3d& through, const Vector3d& along) {
  double most = 0;
  for (const double at : {found.fromMm, found.toMm}) {
    const Vector3d w = found.through + at * found.along - through;
    most = std::max(most, (w - w.dot(along) * along).norm());
  }
  return most;
}

/// Rings about z at equal heights, each of `sides` corners; open at both ends.
TriangleMesh gridCylinder(double radius, double length, int sides, int rows) {
  TriangleMesh mesh;
  for (int row = 0; row <= rows; ++row) {
    for (int i = 0; i < sides; ++i) {
      const double angle = 2 * kPi * (i + 0.5 * (row % 2)) / sides;
      mesh.vertices.emplace_back(radius * std::cos(angle), radius * std::sin(angle),
                                 length * row / rows);
    }
  }
  const auto at = [&](int row, int i) {
    return static_cast<std::uint32_t>(row * sides + i % sides);
  };
  for (int row = 0; row < rows; ++row) {
    for (int i = 0; i < sides; ++i) {
      if (row % 2 == 0) {
        mesh.triangles.push_back({at(row, i), at(row, i + 1), at(row + 1, i)});
        mesh.triangles.push_back({at(row, i + 1), at(row + 1, i + 1), at(row + 1, i)});
      } else {
        mesh.triangles.push_back({at(row, i), at(row, i + 1), at(row + 1, i + 1)});
        mesh.triangles.push_back({at(row, i), at(row + 1, i + 1), at(row + 1, i)});
      }
    }
  }
  return mesh;
}

TriangleMesh frustum(double low, double high, double height, int sides) {
  TriangleMesh mesh = shapes::cylinder(1, 0, height, sides);
  for (Vector3d& p : mesh.vertices) p.head<2>() *= p.z() > height / 2 ? high : low;
  return mesh;
}

/// An ellipsoid of three different axes.
TriangleMesh egg(int splits) {
  TriangleMesh mesh = shapes::sphere(10, splits);
  for (Vector3d& p : mesh.vertices) p = Vector3d(1.5 * p.x(), 0.8 * p.y(), p.z());
  return mesh;
}

TriangleMesh inSinglePrecision(TriangleMesh mesh) {
  for (Vector3d& p : mesh.vertices) p = p.cast<float>().cast<double>();
  return mesh;
}

// Closed form: corners stand on the cylinder that was meshed, facets' middles the sagitta inside.
TEST(FeatureFinder, RadiusIsThatOfTheCornersWhateverTheirNumber) {
  for (const int sides : {8, 12, 17, 32, 100}) {
    const TriangleMesh mesh = shapes::cylinder(2.5, -3, 7, sides);
    const Features found = featuresOf(mesh);
    ASSERT_EQ(found.cylinders.size(), 1u) << sides;
    EXPECT_TRUE(found.balls.empty());
    const CylinderFeature& pin = found.cylinders.front();
    EXPECT_TRUE(pin.outward);
    EXPECT_NEAR(pin.radiusMm, 2.5, 1e-9) << sides;
    double inscribed = pin.radiusMm;
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
      const Vector3d middle = (mesh.corner(t, 0) + mesh.corner(t, 1)) / 2;
      const bool isSide = std::abs(mesh.corner(t, 0).z() - mesh.corner(t, 1).z()) < 1e-9 &&
                          middle.head<2>().norm() > 2;
      if (isSide) inscribed = std::min(inscribed, middle.head<2>().norm());
    }
    EXPECT_NEAR(pin.radiusMm - inscribed, shapes::sagitta(2.5, sides), 1e-9);
    EXPECT_NEAR(pin.toMm - pin.fromMm, 10, 1e-9);
    EXPECT_NEAR(pin.coverageRad, 2 * kPi, 1e-9);
    EXPECT_LT(pin.residualMm, 1e-9);
  }
}

TEST(FeatureFinder, PinsHolesAndBallsAreFoundHoweverTheyStand) {
  std::mt19937_64 random(kFeatureSeed);
  RecordProperty("seed", static_cast<int>(kFeatureSeed));
  for (int i = 0; i < 20; ++i) {
    const Pose X = shapes::randomPose(random, 100);
    const Features tube = featuresOf(shapes::moved(shapes::tube(6, 2.2, 0, 5, 24 + i), X));
    ASSERT_EQ(tube.cylinders.size(), 2u);
    for (const CylinderFeature& wall : tube.cylinders) {
      EXPECT_NEAR(wall.radiusMm, wall.outward ? 6 : 2.2, 1e-8);
      EXPECT_LT(axisError(wall, X.translation(), X.linear() * kZ), 1e-8);
    }
    EXPECT_NE(tube.cylinders[0].outward, tube.cylinders[1].outward);
    const Features ball = featuresOf(shapes::moved(shapes::sphere(3.4, 2 + i % 3), X));
    ASSERT_EQ(ball.balls.size(), 1u);
    EXPECT_TRUE(ball.cylinders.empty());
    EXPECT_NEAR(ball.balls[0].radiusMm, 3.4, 1e-8);
    EXPECT_LT((ball.balls[0].centre - X.translation()).norm(), 1e-8);
    EXPECT_GT(ball.balls[0].share, 0.9);
  }
}

TEST(FeatureFinder, ABallTurnedInsideOutIsASocket) {
  const Features found = featuresOf(shapes::reversed(shapes::sphere(4, 3)));
  ASSERT_EQ(found.balls.size(), 1u);
  EXPECT_FALSE(found.balls[0].outward);
}

TEST(FeatureFinder, ACapsuleIsAPinWithTwoHalfBalls) {
  const Features found = featuresOf(shapes::capsule(3, 12, 32));
  ASSERT_EQ(found.cylinders.size(), 1u);
  EXPECT_NEAR(found.cylinders[0].radiusMm, 3, 1e-9);
  EXPECT_NEAR(found.cylinders[0].toMm - found.cylinders[0].fromMm, 12, 1e-9);
  ASSERT_EQ(found.balls.size(), 2u);
  for (const BallFeature& ball : found.balls) {
    EXPECT_NEAR(ball.radiusMm, 3, 1e-9);
    EXPECT_NEAR(ball.share, 0.5, 0.03);  // Its facets stand inside the half ball.
  }
}

TEST(FeatureFinder, PartOfATurnIsToldWithHowMuchItIs) {
  for (const int degrees : {60, 90, 180, 300}) {
    std::vector<Eigen::Vector2d> outline{{0, 0}};
    const int steps = degrees / 6;
    for (int i = 0; i <= steps; ++i) {
      const double angle = radFromDeg(6.0 * i);
      outline.emplace_back(4 * std::cos(angle), 4 * std::sin(angle));
    }
    const Features found = featuresOf(shapes::prism(outline, 0, 5));
    ASSERT_EQ(found.cylinders.size(), 1u) << degrees;
    EXPECT_NEAR(degFromRad(found.cylinders[0].coverageRad), degrees, 1e-6);
    EXPECT_NEAR(found.cylinders[0].radiusMm, 4, 1e-9);
    EXPECT_LT(axisError(found.cylinders[0], kOrigin, kZ), 1e-9);
  }
}

TEST(FeatureFinder, ConesToriBoxesAndHexagonsAreNoPinsOrBalls) {
  const TriangleMesh others[] = {shapes::box({0, 0, 0}, {10, 4, 3}),
                                 frustum(5, 3, 8, 48),
                                 frustum(5, 0.5, 3, 32),
                                 frustum(3, 2.6, 10, 24),
                                 shapes::cylinder(4, 0, 6, 6),
                                 shapes::torus(10, 2, 24, 24),
                                 shapes::torus(10, 2, 72, 24),
                                 shapes::torus(10, 2, 72, 72),
                                 shapes::torus(10, 0.5, 72, 24),
                                 shapes::torus(6, 2, 48, 16),
                                 shapes::torus(20, 6, 158, 158),
                                 egg(2),
                                 egg(5),
                                 shapes::cylinder(4, 0, 6, 5)};
  for (std::size_t i = 0; i < std::size(others); ++i) {
    const Features found = featuresOf(others[i]);
    EXPECT_TRUE(found.cylinders.empty())
        << "shape " << i << ": " << found.cylinders.size() << ", first of radius "
        << found.cylinders.front().radiusMm << ", residual " << found.cylinders.front().residualMm;
    EXPECT_TRUE(found.balls.empty()) << "shape " << i;
  }
}

// Of independent errors sigma of N corners: the mean's is sigma / sqrt(N), an axis' tilt's
// sigma / sqrt(N L^2 / 24) for corners all round and evenly along L. Five of them and 1 in 10^6.
TEST(FeatureFinder, NoiseMovesTheAxisByNoMoreThanItsStatistics) {
  std::mt19937_64 random(kFeatureSeed + 1);
  RecordProperty("seed", static_cast<int>(kFeatureSeed + 1));
  for (const double sigma : {0.001, 0.004, 0.01}) {
    const int sides = 40, rows = 30;
    const double length = 15;
    TriangleMesh mesh = gridCylinder(4, length, sides, rows);
    std::normal_distribution<double> noise(0, sigma);
    for (Vector3d& p : mesh.vertices) p += Vector3d(noise(random), noise(random), noise(random));
    const Features found = featuresOf(mesh);
    ASSERT_EQ(found.cylinders.size(), 1u) << sigma;
    const double corners = sides * (rows + 1);
    const double tilt = sigma / std::sqrt(corners * length * length / 24);
    const double shift = sigma / std::sqrt(corners / 2);
    EXPECT_NEAR(found.cylinders[0].radiusMm, 4, 5 * sigma / std::sqrt(corners));
    EXPECT_LT(axisError(found.cylinders[0], kOrigin, kZ), 5 * (shift + tilt * length / 2));
    EXPECT_NEAR(degFromRad(found.cylinders[0].coverageRad), 360, 1);
  }
}

TEST(FeatureFinder, SinglePrecisionAsInStlCostsLessThanAMicrometre) {
  std::mt19937_64 random(kFeatureSeed + 2);
  for (int i = 0; i < 10; ++i) {
    const Pose X = shapes::randomPose(random, 100);
    const Features found =
        featuresOf(inSinglePrecision(shapes::moved(shapes::tube(4, 1.545, 0, 2, 32), X)));
    ASSERT_EQ(found.cylinders.size(), 2u);
    for (const CylinderFeature& wall : found.cylinders) {
      EXPECT_NEAR(wall.radiusMm, wall.outward ? 4 : 1.545, 0.001);
      EXPECT_LT(axisError(wall, X.translation(), X.linear() * kZ), 0.001);
    }
  }
}

TEST(FeatureFinder, CheeksApartAreTwoHolesAndAPinWithASlotIsOne) {
  const Features cheeks = featuresOf(
      shapes::joined({shapes::tube(6, 2.2, -8, -5, 32), shapes::tube(6, 2.2, 5, 8, 32)}));
  int holes = 0;
  for (const CylinderFeature& wall : cheeks.cylinders) holes += !wall.outward;
  EXPECT_EQ(holes, 2);
  // A half shell of 170 degrees, and the same turned round: two pieces of one pin.
  TriangleMesh half;
  for (const TriangleMesh& whole : {shapes::cylinder(3, 0, 6, 36)}) {
    half.vertices = whole.vertices;
    for (std::size_t t = 0; t < whole.triangles.size(); ++t) {
      const Vector3d middle = (whole.corner(t, 0) + whole.corner(t, 1) + whole.corner(t, 2)) / 3;
      const double angle = std::abs(degFromRad(std::atan2(middle.y(), middle.x())));
      if (middle.head<2>().norm() > 2 && (angle < 9.9 || angle > 170.1)) continue;
      half.triangles.push_back(whole.triangles[t]);
    }
  }
  const Features slotted = featuresOf(half);
  ASSERT_EQ(slotted.cylinders.size(), 1u);
  EXPECT_NEAR(degFromRad(slotted.cylinders[0].coverageRad), 320, 1e-6);  // 4 facets are missing.
}

TEST(FeatureFinder, TellsWhatIsPointedAt) {
  const TriangleMesh mesh = shapes::cylinder(3, 0, 6, 24);
  const FeatureFinder finder(mesh);
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d normal = (mesh.corner(t, 1) - mesh.corner(t, 0))
                                .cross(mesh.corner(t, 2) - mesh.corner(t, 0))
                                .normalized();
    const bool isWall = std::abs(normal.z()) < 0.5;
    EXPECT_EQ(finder.cylinderAt(t).has_value(), isWall);
    EXPECT_FALSE(finder.ballAt(t));
    EXPECT_EQ(finder.regionAt(t).size(), isWall ? 48u : 24u);
    const auto plane = finder.planeAt(t);
    ASSERT_TRUE(plane);
    if (isWall) continue;
    // Area of a regular polygon: sides / 2 * r^2 * sin(2 pi / sides).
    EXPECT_NEAR(plane->areaMm2, 24 / 2.0 * 9 * std::sin(2 * kPi / 24), 1e-9);
    EXPECT_NEAR(std::abs(plane->normal.z()), 1, 1e-12);
  }
  EXPECT_THROW((void)finder.cylinderAt(mesh.triangles.size()), std::out_of_range);
}

TEST(FeatureFinder, AnEdgeRunsAsFarAsItIsStraight) {
  TriangleMesh mesh = shapes::box({0, 0, 0}, {10, 4, 3});
  const FeatureFinder finder(mesh);
  const auto edge = finder.edgeAt(0, {6, 0.2, 3}, 1);
  ASSERT_TRUE(edge);
  EXPECT_NEAR((edge->to - edge->from).norm(), 10, 1e-12);
  EXPECT_NEAR(std::abs((edge->to - edge->from).x()), 10, 1e-12);
  EXPECT_FALSE(finder.edgeAt(0, {5, 2, 3}, 1));  // The middle of a face, diagonals do not count.
}

}  // namespace
}  // namespace swingroom
