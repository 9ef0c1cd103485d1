#include <gtest/gtest.h>

#include <numeric>

#include "app/viewport/painters/section_painter.h"
#include "app/viewport/section_cut.h"
#include "app/viewport/section_view.h"
#include "app/viewport/view_stage.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

constexpr double kRoundingMm = 1e-9;

ViewSection levelAt(double mm) {
  return {Vector3d::UnitZ(), Vector3d::UnitX(), mm};
}

double lengthOf(const SectionCut& cut) {
  return std::accumulate(
      cut.lines_W.begin(), cut.lines_W.end(), 0.0,
      [](double sum, const auto& line) { return sum + (line[1] - line[0]).norm(); });
}

/// Twice the area that the rims enclose, either way round: the shoelace formula.
double areaOf(const SectionCut& cut, const ViewSection& section) {
  double twice = 0;
  for (const auto& [a, b] : cut.lines_W) {
    const Vector3d u = section.across_W, v = section.along_W();
    twice += u.dot(a) * v.dot(b) - u.dot(b) * v.dot(a);
  }
  return std::abs(twice) / 2;
}

TEST(SectionCut, BoxGivesItsCrossSection) {
  const BoundingTree tree(shapes::box({0, 0, 0}, {10, 20, 30}));
  const ViewSection section = levelAt(12);
  const SectionCut cut = sectionCut(tree, translation({3, 4, 5}), section);
  EXPECT_TRUE(cut.closed);
  EXPECT_NEAR(lengthOf(cut), 2 * (10 + 20), kRoundingMm);
  EXPECT_NEAR(areaOf(cut, section), 10 * 20, kRoundingMm);
  for (const auto& line : cut.lines_W) {
    for (const Vector3d& end : line) EXPECT_NEAR(end.z(), 12, kRoundingMm);
  }
  EXPECT_TRUE(cut.extent.min().isApprox(Eigen::Vector2d(3, 4), 1e-12));
  EXPECT_TRUE(cut.extent.max().isApprox(Eigen::Vector2d(13, 24), 1e-12));
}

TEST(SectionCut, TubeEnclosesTheRingAndNotItsHole) {
  constexpr int kSides = 48;
  const BoundingTree tree(shapes::tube(9, 6, -7, 7, kSides));
  const ViewSection section = levelAt(1.25);
  const SectionCut cut = sectionCut(tree, Pose::Identity(), section);
  EXPECT_TRUE(cut.closed);
  // Regular polygons inscribed in both circles: n/2 r^2 sin(2 pi / n).
  const double polygon = kSides / 2.0 * std::sin(2 * kPi / kSides);
  EXPECT_NEAR(areaOf(cut, section), polygon * (9 * 9 - 6 * 6), 1e-6);
}

TEST(SectionCut, PlaneThroughCornersAndAlongFacesIsClosedOrEmpty) {
  const BoundingTree octahedron(shapes::sphere(10, 0)), box(shapes::box({0, 0, 0}, {1, 1, 1}));
  for (const double mm : {0.0, 1.0, 0.5}) {
    const SectionCut cut = sectionCut(box, Pose::Identity(), levelAt(mm));
    EXPECT_TRUE(cut.closed || cut.lines_W.empty()) << mm;
  }
  EXPECT_TRUE(sectionCut(octahedron, Pose::Identity(), levelAt(0)).closed);
}

TEST(SectionCut, TurnedSoundSolidsAreAlwaysClosed) {
  std::mt19937_64 random(41);
  const BoundingTree trees[] = {BoundingTree(shapes::torus(14, 5, 24, 12)),
                                BoundingTree(shapes::sphere(9, 3)),
                                BoundingTree(shapes::capsule(4, 22, 16))};
  int cuts = 0;
  for (int i = 0; i < 300; ++i) {
    const Pose X_WP = shapes::randomPose(random, 8);
    const SectionCut cut = sectionCut(trees[i % 3], X_WP, levelAt(0.01 * i - 1.5));
    if (cut.lines_W.empty()) continue;
    ++cuts;
    EXPECT_TRUE(cut.closed) << "case " << i;
  }
  EXPECT_GT(cuts, 150);
}

TEST(SectionCut, OpenSurfaceIsNotClosedUnlessTheHoleIsElsewhere) {
  TriangleMesh open = shapes::sphere(10, 2);
  const std::size_t before = open.triangles.size();
  std::erase_if(open.triangles, [&](const Triangle& t) {
    return open.vertices[t[0]].x() > 0 && std::abs(open.vertices[t[0]].z()) < 4;
  });
  ASSERT_LT(open.triangles.size(), before);
  const BoundingTree tree(open);
  EXPECT_FALSE(sectionCut(tree, Pose::Identity(), levelAt(0.5)).closed);
  EXPECT_TRUE(sectionCut(tree, Pose::Identity(), levelAt(9.5)).closed);
  EXPECT_TRUE(
      sectionCut(BoundingTree(TriangleMesh()), Pose::Identity(), levelAt(0)).lines_W.empty());
}

TEST(SectionSide, TellsKeptCutAndGone) {
  const BoundingTree tree(shapes::box({0, 0, 0}, {1, 1, 1}));
  EXPECT_EQ(sideOf(tree.root(), Pose::Identity(), levelAt(1.5)), SectionSide::kept);
  EXPECT_EQ(sideOf(tree.root(), Pose::Identity(), levelAt(0.5)), SectionSide::cut);
  EXPECT_EQ(sideOf(tree.root(), Pose::Identity(), levelAt(-0.5)), SectionSide::gone);
}

TEST(Hatching, NeighboursHaveDifferentOnes) {
  // A row of boxes that touch: and one that all of them touch.
  std::vector<Eigen::AlignedBox3d> boxes{{Vector3d(-1, -1, -1), Vector3d(20, 0, 1)}};
  for (int i = 0; i < 12; ++i) boxes.push_back({Vector3d(i, 0, 0), Vector3d(i + 1, 1, 1)});
  boxes.push_back(Eigen::AlignedBox3d());
  const std::vector<int> hatchings = hatchingsFor(boxes);
  ASSERT_EQ(hatchings.size(), boxes.size());
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    EXPECT_TRUE(hatchings[i] >= 0 && hatchings[i] < kHatchings);
    for (std::size_t k = 0; k < i; ++k) {
      if (boxes[i].isEmpty() || !boxes[i].intersects(boxes[k])) continue;
      EXPECT_NE(hatchings[i], hatchings[k]) << i << " and " << k;
    }
  }
}

TEST(Hatching, LinesAreAt45DegreesAndAsFarApartAsAsked) {
  for (int hatching = 0; hatching < kHatchings; ++hatching) {
    const Eigen::Vector2d hatch = hatchOf(hatching, 2);
    EXPECT_NEAR(std::abs(hatch.x()), std::abs(hatch.y()), 1e-12);
    for (int other = 0; other < hatching; ++other)
      EXPECT_GT((hatch - hatchOf(other, 2)).norm(), 0.05);
  }
  EXPECT_NEAR(1 / hatchOf(0, 2).norm(), 2, 1e-12);
  for (const double mmPerPixel : {0.003, 0.02, 0.11, 0.5, 3.0}) {
    const double pixels = hatchSpacingMm(mmPerPixel) / mmPerPixel;
    EXPECT_TRUE(pixels > 7 && pixels < 23) << pixels;
  }
}

ViewPart cubeOf(double half) {
  ViewPart part;
  part.surface = std::make_shared<const Surface>(std::make_shared<const TriangleMesh>(
      shapes::box(-half * Vector3d::Ones(), half * Vector3d::Ones())));
  return part;
}

TEST(SectionPick, WhatIsTakenAwayIsNotMetAndTheCutFaceIs) {
  ViewScene scene;
  scene.parts = {cubeOf(5), cubeOf(5)};
  ViewStage stage;
  stage.setScene(scene);
  stage.setPoses({Pose::Identity(), translation({20, 0, 0})});
  const ViewRay ray{{100, 1, 2}, -Vector3d::UnitX()};
  EXPECT_EQ(stage.pick(ray, false)->part, PartId{1});
  stage.setSection(ViewSection{Vector3d::UnitX(), Vector3d::UnitY(), 3});
  for (const bool parallel : {false, true}) {
    const auto cut = stage.pick(ray, parallel);
    ASSERT_TRUE(cut);
    EXPECT_EQ(cut->part, PartId{0});
    EXPECT_NEAR((cut->p_W - Vector3d(3, 1, 2)).norm(), 0, kRoundingMm);
  }
  // From the other side the kept half is met; a ray that would meet only what is gone meets
  // nothing.
  const auto behind = stage.pick({{-100, 1, 2}, Vector3d::UnitX()}, false);
  ASSERT_TRUE(behind);
  EXPECT_NEAR(behind->p_W.x(), -5, kRoundingMm);
  EXPECT_FALSE(stage.pick({{20, 1, 100}, -Vector3d::UnitZ()}, false));
  EXPECT_FALSE(stage.pick({{-100, 7, 2}, Vector3d::UnitX()}, false));
  stage.setSection(std::nullopt);
  EXPECT_EQ(stage.pick(ray, false)->part, PartId{1});
}

TEST(SectionPick, BoxTakesWhatIsLeftOfAPart) {
  ViewScene scene;
  scene.parts = {cubeOf(5)};
  ViewStage stage;
  stage.setScene(scene);
  ViewCamera camera;
  camera.perspective = false, camera.spanMm = 60;
  const ViewProjection view(camera, {600, 600});  // From +x, 10 pixels a mm, y to the right.
  const Eigen::AlignedBox2d left(Eigen::Vector2d(240, 240), Eigen::Vector2d(315, 360));
  EXPECT_TRUE(stage.partsWithin(left, view).empty());
  stage.setSection(ViewSection{Vector3d::UnitY(), Vector3d::UnitX(), 1.0});
  EXPECT_EQ(stage.partsWithin(left, view).size(), 1U);
  stage.setSection(ViewSection{Vector3d::UnitY(), Vector3d::UnitX(), 2.0});
  EXPECT_TRUE(stage.partsWithin(left, view).empty()) << "its cut rim is outside";
}

TEST(SectionHandleTest, FollowsTheMouseAlongTheNormal) {
  ViewScene scene;
  scene.parts = {cubeOf(10)};
  ViewStage stage;
  stage.setScene(scene);
  for (const double yawDeg : {40.0, -70.0, 130.0}) {
    ViewCamera camera;
    camera.yawRad = radFromDeg(yawDeg), camera.pitchRad = 0.4, camera.spanMm = 60;
    const ViewProjection view(camera, {600, 400});
    const ViewSection section{Vector3d::UnitY(), Vector3d::UnitX(), 2.5};
    stage.setSection(section);
    const auto handle = SectionView::handleOf(SectionView::frameOf(stage), section, view);
    ASSERT_TRUE(handle);
    EXPECT_TRUE(Eigen::AlignedBox2d(Eigen::Vector2d(0, 0), Eigen::Vector2d(600, 400))
                    .contains(handle->place));
    // 1 mm on, the frame's points are seen where the handle says, to perspective's second order.
    ViewSection on = section;
    on.placeMm += 1;
    stage.setSection(on);
    const auto next = SectionView::handleOf(SectionView::frameOf(stage), on, view);
    ASSERT_TRUE(next);
    const Eigen::Vector2d step = next->place - handle->place;
    EXPECT_NEAR(handle->way.dot(step) * handle->mmPerPixel, 1, 0.05);
  }
}

}  // namespace
}  // namespace swingroom
