#include <gtest/gtest.h>

#include <QSignalSpy>

#include "app/viewport/coarse_mesh.h"
#include "app/viewport/mesh_maker.h"
#include "app/viewport/painters/floor_grid.h"
#include "app/viewport/view_stage.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

std::shared_ptr<const TriangleMesh> shared(const TriangleMesh& mesh) {
  return std::make_shared<const TriangleMesh>(mesh);
}

TEST(CoarseMesh, HasAFractionOfTheTrianglesAndLiesNearTheSurface) {
  const ViewMesh mesh = makeViewMesh(shapes::torus(40, 15, 400, 200));  // 160 000.
  const std::size_t triangles = mesh.coarse.indices.size() / 3;
  EXPECT_GT(triangles, 4'000U);
  EXPECT_LT(triangles, 160'000U / 4);
  // A cell's side as the header says it: 110 mm by the root of a twelfth of 20 000. A mean of
  // points in one cell is no farther from them than its diagonal.
  const double cellMm = 110 / std::sqrt(20'000.0 / 12);
  for (const ViewVertex& vertex : mesh.coarse.vertices) {
    const Vector3d p = vertex.position.cast<double>() + mesh.middle;
    const double ring = std::hypot(p.x(), p.y()) - 40;
    EXPECT_NEAR(std::hypot(ring, p.z()), 15, std::sqrt(3.0) * cellMm);
    EXPECT_NEAR(vertex.normal.norm(), 1, 1e-3);
  }
  for (const std::uint32_t index : mesh.coarse.indices)
    EXPECT_LT(index, mesh.coarse.vertices.size());
}

TEST(CoarseMesh, SmallMeshStaysAsItIs) {
  EXPECT_TRUE(makeViewMesh(shapes::torus(40, 15, 60, 30)).coarse.indices.empty());
  EXPECT_TRUE(coarsened({}, {}).indices.empty());
}

TEST(Outline, ReachesAsFarAsTheMeshInEveryDirection) {
  const ViewMesh mesh = makeViewMesh(shapes::sphere(10, 6));
  ASSERT_LT(mesh.outline.size(), mesh.corners.size());
  std::mt19937_64 random(5);
  std::normal_distribution<float> normal;
  for (int i = 0; i < 200; ++i) {
    const Eigen::Vector3f direction =
        Eigen::Vector3f(normal(random), normal(random), normal(random)).normalized();
    float reach = 0;
    for (const Eigen::Vector3f& p : mesh.outline) reach = std::max(reach, direction.dot(p));
    // 200 even directions: each other one is within about 0.2 rad, where a ball loses 2 %.
    EXPECT_GT(reach, 9.75F);
  }
}

TEST(MeshMaker, MakesWhatIsWantedAndNothingTwice) {
  MeshMaker maker;
  const auto a = shared(shapes::sphere(3, 2)), b = shared(shapes::box({0, 0, 0}, {1, 2, 3}));
  maker.make({a, b});
  maker.make({a, b});
  std::vector<MeshMaker::Made> made = maker.finish();
  ASSERT_EQ(made.size(), 2U);
  for (const MeshMaker::Made& one : made)
    EXPECT_EQ(one.mesh->triangles.size(), one.source->triangles.size());
  EXPECT_TRUE(maker.finish().empty());
}

TEST(MeshMaker, WhatWaitsToBeTakenIsNotMadeAgain) {
  MeshMaker maker;
  QSignalSpy ready(&maker, &MeshMaker::ready);
  const auto box = shared(shapes::box({0, 0, 0}, {1, 2, 3}));
  maker.make({box});
  ASSERT_TRUE(ready.count() > 0 || ready.wait(20'000));
  maker.make({box});
  EXPECT_EQ(maker.finish().size(), 1U);
}

TEST(MeshMaker, EndsWhileWorkWaits) {
  MeshMaker maker;
  std::vector<MeshMaker::Source> many;
  for (int i = 0; i < 60; ++i) many.push_back(shared(shapes::torus(40, 15, 100, 50)));
  maker.make(many);
}

TEST(ViewStage, LargeMeshIsMissingUntilItIsPutAndHasItsPlaceMeanwhile) {
  ViewScene scene;
  ViewPart part;
  part.surface = std::make_shared<const Surface>(shared(shapes::torus(40, 15, 300, 100)));
  scene.parts = {part, part};
  ViewStage stage;
  stage.setScene(scene);
  ASSERT_EQ(stage.missing().size(), 1U) << "both have the same";
  EXPECT_FALSE(stage.isShown(0));
  const ViewBounds before = stage.bounds();
  EXPECT_GE(before.radiusMm, 55);
  EXPECT_FALSE(stage.outlinePoints().empty());
  stage.putMesh(part.surface->mesh.get(),
                std::make_shared<const ViewMesh>(makeViewMesh(*part.surface->mesh)));
  EXPECT_TRUE(stage.missing().empty());
  EXPECT_TRUE(stage.isShown(0) && stage.isShown(1));
  EXPECT_EQ(stage.bounds().radiusMm, before.radiusMm);
  scene.parts[1].visible = false;
  stage.setScene(scene);
  EXPECT_TRUE(stage.missing().empty()) << "it is kept";
}

// Parallel from above at so many pixels a millimetre.
TEST(FloorGrid, TellsTheFinestLinesThatAreSeen) {
  const ViewScene scene;
  const FloorFrame floor = floorOf(scene);
  const ViewBounds bounds{Vector3d(0, 0, 5), 30};
  ViewCamera camera;
  camera.perspective = false, camera.pitchRad = kPi / 2;
  const auto spacingAt = [&](double pixelsAMm) {
    camera.spanMm = 600 / pixelsAMm;
    return seenGridSpacingMm(floor, bounds, ViewProjection(camera, {800, 600}));
  };
  EXPECT_EQ(spacingAt(5), 10.0);
  EXPECT_EQ(spacingAt(0.2), 50.0);
  EXPECT_FALSE(spacingAt(0.01));
  camera.pitchRad = -kPi / 2;
  EXPECT_FALSE(spacingAt(5));
}

}  // namespace
}  // namespace swingroom
