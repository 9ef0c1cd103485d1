// A surface with fewer triangles that is nowhere farther off than it may be, against closed forms.
#include "core/room/space/flat_thinning.h"

#include <gtest/gtest.h>

#include <map>

#include "tests/core/room/space_fixture.h"

namespace swingroom {
namespace {

LatticeSurface surfaceFrom(const TriangleMesh& mesh) {
  LatticeSurface surface;
  surface.mesh = mesh;
  surface.regions.assign(mesh.triangles.size(), 1);
  surface.spareMm.assign(mesh.vertices.size(), 0);
  return surface;
}

/// Of places spread over the triangles: least and greatest distance from the origin.
std::pair<double, double> radiiOf(const TriangleMesh& mesh) {
  std::pair<double, double> radii{1e9, 0};
  constexpr int kSteps = 8;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    for (int i = 0; i <= kSteps; ++i) {
      for (int j = 0; i + j <= kSteps; ++j) {
        const double u = static_cast<double>(i) / kSteps, v = static_cast<double>(j) / kSteps;
        const double r = (mesh.corner(t, 0) * (1 - u - v) + mesh.corner(t, 1) * u + mesh.corner(t, 2) * v).norm();
        radii = {std::min(radii.first, r), std::max(radii.second, r)};
      }
    }
  }
  return radii;
}

TEST(FlatThinning, TakesFromABallNoMoreThanItMay) {
  const TriangleMesh ball = shapes::sphere(10, 5);
  const double before = radiiOf(ball).first;
  for (const double inMm : {0.02, 0.1}) {
    LatticeSurface thinned = surfaceFrom(ball);
    thinFlats(thinned, {0, inMm}, WorkMonitor());
    expectSound(thinned.mesh);
    const auto [least, most] = radiiOf(thinned.mesh);
    EXPECT_LE(most, 10 + 1e-9) << "never outward";
    EXPECT_GE(least, before - inMm - 1e-9);
    // An edge of it is a third of a mm: a corner stands 0.33^2 / 20 = 0.005 over its neighbours.
    EXPECT_LT(thinned.mesh.triangles.size(), ball.triangles.size() * (inMm < 0.05 ? 0.75 : 0.5)) << inMm;
    EXPECT_EQ(thinned.regions.size(), thinned.mesh.triangles.size());
  }
}

// Of a cavity's wall every corner that is taken out makes what is round it larger.
TEST(FlatThinning, TakesNothingFromACavityThatMayNotShrink) {
  const TriangleMesh cavity = shapes::reversed(shapes::sphere(10, 4));
  LatticeSurface kept = surfaceFrom(cavity);
  thinFlats(kept, {0, 0.5}, WorkMonitor());
  EXPECT_EQ(kept.mesh.triangles.size(), cavity.triangles.size());
  LatticeSurface thinned = surfaceFrom(cavity);
  const double before = radiiOf(cavity).first;
  thinFlats(thinned, {0.2, 0}, WorkMonitor());
  EXPECT_LT(thinned.mesh.triangles.size(), cavity.triangles.size());
  EXPECT_GE(radiiOf(thinned.mesh).first, before - 0.2 - 1e-9);
}

TEST(FlatThinning, LeavesLittleOfAFlatFace) {
  constexpr double kHigh = 4;
  LatticeSurface surface = surfaceFrom(shapes::box({0, 0, 0}, {kHigh, kHigh, kHigh}));
  // Every triangle in four, four times.
  for (int round = 0; round < 4; ++round) {
    TriangleMesh finer{surface.mesh.vertices, {}};
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middles;
    const auto middle = [&](std::uint32_t a, std::uint32_t b) {
      const auto [place, isNew] =
          middles.try_emplace(std::minmax(a, b), static_cast<std::uint32_t>(finer.vertices.size()));
      if (isNew) finer.vertices.push_back(0.5 * (finer.vertices[a] + finer.vertices[b]));
      return place->second;
    };
    for (const auto& [a, b, c] : surface.mesh.triangles) {
      const std::uint32_t ab = middle(a, b), bc = middle(b, c), ca = middle(c, a);
      finer.triangles.insert(finer.triangles.end(), {{a, ab, ca}, {ab, b, bc}, {ca, bc, c}, {ab, bc, ca}});
    }
    surface = surfaceFrom(finer);
  }
  const std::size_t before = surface.mesh.triangles.size();
  ASSERT_EQ(before, 12u * 256);
  thinFlats(surface, {1e-9, 1e-9}, WorkMonitor());
  expectSound(surface.mesh);
  EXPECT_LT(surface.mesh.triangles.size(), before / 5);
  EXPECT_NEAR(massProperties(surface.mesh).volumeMm3, kHigh * kHigh * kHigh, 1e-6);
}

}  // namespace
}  // namespace swingroom
