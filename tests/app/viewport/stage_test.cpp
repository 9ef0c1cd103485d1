#include <gtest/gtest.h>

#include "app/viewport/view_stage.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

ViewPart partOf(const TriangleMesh& mesh) {
  ViewPart part;
  part.surface = std::make_shared<const Surface>(std::make_shared<const TriangleMesh>(mesh));
  return part;
}

/// Distance along the line to the nearest triangle, each asked in turn in the world.
std::optional<std::pair<double, std::size_t>> nearestByHand(const ViewScene& scene,
                                                            const std::vector<Pose>& X_WPs,
                                                            const Vector3d& p, const Vector3d& d,
                                                            bool line) {
  std::optional<std::pair<double, std::size_t>> best;
  for (std::size_t i = 0; i < scene.parts.size(); ++i) {
    const TriangleMesh& mesh = *scene.parts[i].surface->mesh;
    for (std::size_t k = 0; k < mesh.triangles.size(); ++k) {
      const Vector3d a = X_WPs[i] * mesh.corner(k, 0) - p, b = X_WPs[i] * mesh.corner(k, 1) - p,
                     c = X_WPs[i] * mesh.corner(k, 2) - p;
      const double u = d.dot(c.cross(b)), v = d.dot(a.cross(c)), w = d.dot(b.cross(a));
      if (std::min({u, v, w}) < 0 && std::max({u, v, w}) > 0) continue;
      if (u + v + w == 0) continue;
      const double mm = (u * a + v * b + w * c).dot(d) / (u + v + w);
      if ((line || mm >= 0) && (!best || mm < best->first)) best.emplace(mm, i);
    }
  }
  return best;
}

TEST(ViewStage, PicksWhatEveryTriangleAskedInTurnGives) {
  std::mt19937_64 random(12);
  ViewScene scene;
  scene.parts = {partOf(shapes::torus(14, 5, 24, 12)), partOf(shapes::box({-8, -3, -5}, {9, 4, 6})),
                 partOf(shapes::capsule(4, 22, 16)), partOf(shapes::tube(9, 6, -7, 7, 20))};
  std::vector<Pose> X_WPs;
  for (std::size_t i = 0; i < scene.parts.size(); ++i)
    X_WPs.push_back(shapes::randomPose(random, 25));
  ViewStage stage;
  stage.setScene(scene);
  stage.setPoses(X_WPs);
  ViewCamera camera;
  std::uniform_real_distribution<double> x(0, 800), y(0, 600);
  int hits = 0;
  for (int i = 0; i < 800; ++i) {
    camera.perspective = i % 2 == 0, camera.yawRad = 0.01 * i, camera.pitchRad = 0.4;
    camera.spanMm = 60;
    const ViewRay ray = ViewProjection(camera, {800, 600}).rayAt({x(random), y(random)});
    const auto expected =
        nearestByHand(scene, X_WPs, ray.origin_W, ray.direction_W, !camera.perspective);
    const auto picked = stage.pick(ray, !camera.perspective);
    ASSERT_EQ(picked.has_value(), expected.has_value());
    if (!picked) continue;
    ++hits;
    EXPECT_EQ(picked->part.index, expected->second);
    // Rounding of coordinates below 1000.
    EXPECT_NEAR((picked->p_W - ray.origin_W).dot(ray.direction_W), expected->first, 1e-9);
  }
  EXPECT_GT(hits, 100);
}

TEST(ViewStage, HiddenPartsAndPartsWithoutAMeshAreNotPicked) {
  ViewScene scene;
  scene.parts = {partOf(shapes::box({-1, -1, -1}, {1, 1, 1})), ViewPart()};
  ViewStage stage;
  stage.setScene(scene);
  const ViewRay ray{{10, 0.1, 0.2}, -Vector3d::UnitX()};
  ASSERT_TRUE(stage.pick(ray, false));
  scene.parts[0].visible = false;
  stage.setScene(scene);
  EXPECT_FALSE(stage.pick(ray, false));
  EXPECT_EQ(stage.bounds().radiusMm, 0);
}

TEST(ViewStage, RayGoesThroughAGhostToThePartBehindIt) {
  ViewScene scene;
  scene.parts = {partOf(shapes::box({4, -1, -1}, {5, 1, 1})),
                 partOf(shapes::box({-1, -1, -1}, {1, 1, 1}))};
  scene.parts[0].ghost = true;
  ViewStage stage;
  stage.setScene(scene);
  const auto picked = stage.pick({{10, 0.1, 0.2}, -Vector3d::UnitX()}, false);
  ASSERT_TRUE(picked);
  EXPECT_EQ(picked->part, PartId{1});
}

TEST(ViewStage, BoxTakesThePartsThatAreWhollyInIt) {
  ViewScene scene;
  const TriangleMesh cube = shapes::box({-1, -1, -1}, {1, 1, 1});
  scene.parts = {partOf(cube), partOf(cube), partOf(cube), ViewPart(), partOf(cube)};
  scene.parts[2].visible = false;
  scene.parts[4].ghost = true;
  ViewStage stage;
  stage.setScene(scene);
  // Parallel from the front (+x): 10 pixels a mm, y to the right.
  stage.setPoses({Pose::Identity(), translation({0, 5, 0}), Pose::Identity(), Pose::Identity(),
                  Pose::Identity()});
  ViewCamera camera;
  camera.perspective = false, camera.spanMm = 60;
  const ViewProjection view(camera, {600, 600});
  const auto within = [&](double left, double top, double right, double bottom) {
    return stage.partsWithin({Eigen::Vector2d(left, top), Eigen::Vector2d(right, bottom)}, view);
  };
  using Parts = std::vector<PartId>;
  EXPECT_EQ(within(280, 280, 320, 320), Parts{PartId{0}});
  EXPECT_EQ(within(280, 280, 370, 320), (Parts{PartId{0}, PartId{1}}));
  EXPECT_EQ(within(291, 280, 370, 320), Parts{PartId{1}}) << "one millimetre of it is outside";
  EXPECT_EQ(within(295, 295, 305, 305), Parts()) << "the box is inside the part";
  EXPECT_EQ(within(280, 330, 370, 360), Parts());
}

TEST(ViewStage, SaysWhetherAnythingChanged) {
  ViewScene scene;
  scene.parts = {partOf(shapes::box({-1, -1, -1}, {1, 1, 1}))};
  ViewStage stage;
  EXPECT_TRUE(stage.setScene(scene));
  EXPECT_FALSE(stage.setScene(scene));
  EXPECT_TRUE(stage.setPoses({Pose::Identity()}));
  EXPECT_FALSE(stage.setPoses({Pose::Identity()}));
  EXPECT_TRUE(stage.setPoses({translation({0, 0, 1})}));
}

TEST(ViewMesh, BoxHasTwelveEdgesAndItsAreaInSamples) {
  const ViewMesh mesh = makeViewMesh(shapes::box({0, 0, 0}, {10, 20, 30}));
  int features = 0;
  for (const ViewMesh::Edge& edge : mesh.edges) features += edge.feature;
  EXPECT_EQ(features, 12);
  EXPECT_EQ(mesh.edges.size(), 18U);  // And one diagonal a face.
  EXPECT_EQ(mesh.vertices.size(), 24U);
  EXPECT_TRUE(mesh.sealed);
  // 2 (10 20 + 20 30 + 30 10) mm2; the last sample may be missing.
  EXPECT_NEAR(mesh.sampleMm2 * static_cast<double>(mesh.samples.size()), 2200,
              1.01 * mesh.sampleMm2);
}

TEST(ViewMesh, OpenInsideOutAndDamagedMeshesAreTaken) {
  TriangleMesh open = shapes::box({0, 0, 0}, {1, 1, 1});
  open.triangles.pop_back();
  EXPECT_FALSE(makeViewMesh(open).sealed);
  EXPECT_FALSE(makeViewMesh(shapes::reversed(shapes::box({0, 0, 0}, {1, 1, 1}))).sealed);
  TriangleMesh damaged = shapes::box({0, 0, 0}, {1, 1, 1});
  damaged.vertices[0].x() = std::nan("");
  EXPECT_LT(makeViewMesh(damaged).triangles.size(), 12U);
  EXPECT_TRUE(makeViewMesh(TriangleMesh()).indices.empty());
}

}  // namespace
}  // namespace swingroom
