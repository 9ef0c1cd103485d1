// How far places of one stage are from another: CGAL's exact distances and sides.
#include <gtest/gtest.h>

#include <cmath>

#include "core/mesh/weld.h"
#include "core/stages/surface_change.h"
#include "tests/judge/cgal_judge.h"
#include "tests/judge/pairs.h"

namespace swingroom {
namespace {

constexpr unsigned kStageSeed = 808;

StageSurface stageOf(const TriangleMesh& mesh) {
  return StageSurface(std::make_shared<const TriangleMesh>(welded(mesh)));
}

TEST(StagesAgainstCgal, PiecesAreAsFarAsExactArithmeticSaysAndOnThatSide) {
  std::mt19937_64 random(kStageSeed);
  std::uniform_real_distribution<double> small(-0.12, 0.12);
  for (const auto& [name, mesh] : judge::solids()) {
    const Pose X = translation({small(random), small(random), small(random)}) *
                   rotationAbout(boundsOf(mesh).center(), Vector3d(1, 2, -1).normalized(), 0.3 * small(random));
    const StageSurface block = stageOf(mesh), detail = stageOf(shapes::moved(mesh, X));
    ChangeSettings coarse;
    coarse.coarseMm = 3;
    coarse.fineMm = 1;
    const SurfaceChange change = changeOf(block, detail, coarse);
    ASSERT_FALSE(change.pieces.empty()) << name;
    std::vector<Vector3d> middles;
    std::vector<double> mm;
    const std::size_t stride = change.pieces.size() / 60 + 1;
    for (std::size_t i = 0; i < change.pieces.size(); i += stride) {
      const ChangePiece& piece = change.pieces[i];
      middles.push_back((piece.corners[0] + piece.corners[1] + piece.corners[2]) / 3);
      mm.push_back(piece.mm);
      // No corner is farther than the piece's bound.
      for (const Vector3d& corner : piece.corners) {
        const double off = std::sqrt(judge::squaredDistance(block.mesh(), corner));
        EXPECT_LE(off, piece.upperMm + 1e-9) << name << ", piece " << i << ", seed " << kStageSeed;
      }
    }
    const std::vector<judge::Side> sides = judge::sidesOf(block.mesh(), middles);
    for (std::size_t i = 0; i < middles.size(); ++i) {
      const double exact = std::sqrt(judge::squaredDistance(block.mesh(), middles[i]));
      // Never nearer than the nearest place; farther only across a thin wall.
      EXPECT_GE(std::abs(mm[i]), exact - 1e-9) << name << ", seed " << kStageSeed;
      EXPECT_NEAR(std::abs(mm[i]), exact, 1e-9) << name << ", seed " << kStageSeed;
      if (exact < 1e-6) continue;
      EXPECT_EQ(mm[i] < 0, sides[i] == judge::Side::inside) << name << ", seed " << kStageSeed;
    }
  }
}

}  // namespace
}  // namespace swingroom
