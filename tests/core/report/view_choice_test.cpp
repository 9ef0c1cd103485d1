#include "core/report/view_choice.h"

#include <gtest/gtest.h>

#include "core/tree/ray_query.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

// The way that asks every triangle is the judge of the way that asks bounding trees.
TEST(ClearestView, TreesGiveTheViewThatTrianglesGive) {
  std::mt19937_64 random(77);
  const std::vector<TriangleMesh> meshes{shapes::torus(6, 2, 24, 12), shapes::sphere(4, 2),
                                         shapes::box({-3, -2, -1}, {3, 2, 1}),
                                         shapes::capsule(2, 9, 16), shapes::tube(5, 4, -3, 3, 20)};
  std::vector<BoundingTree> trees;
  for (const TriangleMesh& mesh : meshes) trees.emplace_back(mesh);
  const auto directions = viewDirections(Vector3d::UnitZ(), Vector3d::UnitX());
  int unusual = 0;
  for (int i = 0; i < 200; ++i) {
    std::vector<PictureShape> placed;
    for (const TriangleMesh& mesh : meshes)
      placed.push_back({&mesh, shapes::randomPose(random, 9), {}, false, false});
    const std::array<Vector3d, 2> points{placed[0].X_WP.translation(),
                                         placed[1].X_WP.translation()};
    const auto hides = [&](std::size_t s, const Vector3d& place_W, const Vector3d& towards) {
      const Pose X_PW = placed[s].X_WP.inverse();
      const Vector3d back = X_PW.linear() * -towards;
      return firstHit(trees[s], X_PW * place_W + 1e-3 * back, back).has_value();
    };
    const Vector3d byTrees = clearestView(placed.size(), hides, {0, 1}, points, directions);
    EXPECT_EQ(byTrees, clearestView(placed, {0, 1}, points, directions)) << "case " << i;
    unusual += byTrees != directions.front();
  }
  EXPECT_GT(unusual, 50);
}

}  // namespace
}  // namespace swingroom
