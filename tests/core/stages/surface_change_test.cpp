// How far a surface moved between two stages, on closed forms.
#include "core/stages/surface_change.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/stages/stage_shapes.h"

namespace swingroom {
namespace {

using shapes::stage;

double reachedMm(const std::optional<LargestChange>& largest) {
  return largest ? std::abs(largest->place.mm) : 0;
}

// Closed form: 20 x 30 x 10, of which the face at x = 20 goes to 20.2.
TEST(SurfaceChange, ABoxGrownOnOneFace) {
  const StageSurface block = stage(shapes::box({0, 0, 0}, {20, 30, 10}));
  const StageSurface detail = stage(shapes::box({0, 0, 0}, {20.2, 30, 10}));
  const SurfaceChange change = changeOf(block, detail);
  ASSERT_TRUE(change.outward);
  EXPECT_NEAR(reachedMm(change.outward), 0.2, 1e-9);
  EXPECT_LE(change.outward->upperMm, 0.2051);
  EXPECT_NEAR(change.outward->place.at.x(), 20.2, 1e-9);
  EXPECT_NEAR(change.outward->place.nearest.x(), 20, 1e-9);
  EXPECT_FALSE(change.inward);
  // The face, and round it strips of 0.15 mm that are more than 0.05 off: to a row of pieces.
  EXPECT_NEAR(change.changedMm2, 300 + 0.15 * 80, 0.25 * 80);
  EXPECT_NEAR(change.areaMm2, 2 * (20.2 * 30 + 20.2 * 10 + 300), 1e-6);
  double area = 0;
  for (const ChangePiece& piece : change.pieces) {
    area += (piece.corners[1] - piece.corners[0]).cross(piece.corners[2] - piece.corners[0]).norm() / 2;
    EXPECT_LE(std::abs(piece.mm), piece.upperMm);
  }
  EXPECT_NEAR(area, change.areaMm2, 1e-6);
  EXPECT_NEAR(block.health().volumeMm3, 6000, 1e-6);
  EXPECT_NEAR(detail.health().volumeMm3, 6060, 1e-6);
}

TEST(SurfaceChange, TheSameSurfaceDidNotMoveWhateverItsTriangles) {
  const TriangleMesh box = shapes::box({0, 0, 0}, {20, 30, 10});
  const SurfaceChange change = changeOf(stage(box), stage(shapes::splitFiner(box, 3)));
  EXPECT_LT(reachedMm(change.outward), 1e-9);
  EXPECT_LT(reachedMm(change.inward), 1e-9);
  EXPECT_EQ(change.changedShare(), 0);
}

// Closed form: of two spheres with the same directions of corners a corner is 0.3 from its like, and
// a place of a facet no farther.
TEST(SurfaceChange, ASphereGrownAllRoundAndShrunk) {
  const TriangleMesh small = shapes::sphere(8, 4), large = shapes::sphere(8.3, 4);
  const SurfaceChange grown = changeOf(stage(small), stage(large));
  ASSERT_TRUE(grown.outward);
  EXPECT_LE(reachedMm(grown.outward), 0.3 + 1e-9);
  EXPECT_GE(grown.outward->upperMm, 0.3 - 1e-9);
  EXPECT_GT(reachedMm(grown.outward), 0.3 - 0.0051);
  EXPECT_FALSE(grown.inward);
  EXPECT_NEAR(grown.changedShare(), 1, 1e-12);
  const SurfaceChange shrunk = changeOf(stage(large), stage(small));
  ASSERT_TRUE(shrunk.inward);
  EXPECT_LT(shrunk.inward->place.mm, 0);
  // A corner of the inner one is 0.3 mm under the outer corner, and nearer to the facets round it.
  EXPECT_GT(reachedMm(shrunk.inward), 0.29);
  EXPECT_LE(reachedMm(shrunk.inward), 0.3 + 1e-9);
  EXPECT_FALSE(shrunk.outward);
}

// A plate of 1.2 mm whose top goes down by 0.8: the nearest place is its own bottom, 0.4 mm off.
TEST(SurfaceChange, AFaceThatSinksIntoAThinWallIsHeldAgainstItsOwnSide) {
  const StageSurface block = stage(shapes::box({0, 0, 0}, {20, 20, 1.2}));
  const StageSurface detail = stage(shapes::box({0, 0, 0}, {20, 20, 0.4}));
  const SurfaceChange change = changeOf(block, detail);
  ASSERT_TRUE(change.inward);
  EXPECT_NEAR(reachedMm(change.inward), 0.8, 0.0051);
  EXPECT_LE(change.inward->upperMm, 0.8051);
  EXPECT_FALSE(change.outward);
  // The other way round the top stands out by as much.
  const SurfaceChange back = changeOf(detail, block);
  ASSERT_TRUE(back.outward);
  EXPECT_NEAR(reachedMm(back.outward), 0.8, 0.0051);
}

// A slot of 1.2 mm between two blocks of one part, filled by 0.8 from one side.
TEST(SurfaceChange, ASlotThatIsNearlyFilledIsHeldAgainstItsOwnSide) {
  const TriangleMesh left = shapes::box({0, 0, 0}, {10, 10, 10}), right = shapes::box({11.2, 0, 0}, {20, 10, 10});
  const StageSurface block = stage(shapes::joined({left, right}));
  const StageSurface detail = stage(shapes::joined({shapes::box({0, 0, 0}, {10.8, 10, 10}), right}));
  const SurfaceChange change = changeOf(block, detail);
  ASSERT_TRUE(change.outward);
  EXPECT_NEAR(reachedMm(change.outward), 0.8, 0.0051);
}

// A lid that floats 0.3 mm over a face is new: its underside is 0.3 from the face, not farther.
TEST(SurfaceChange, AnUndersideIsAsFarAsTheSurfaceUnderIt) {
  const TriangleMesh box = shapes::box({0, 0, 0}, {20, 20, 10});
  const StageSurface block = stage(box);
  const StageSurface detail = stage(shapes::joined({box, shapes::box({5, 5, 10.3}, {15, 15, 10.8})}));
  const SurfaceChange change = changeOf(block, detail);
  ASSERT_TRUE(change.outward);
  EXPECT_NEAR(reachedMm(change.outward), 0.8, 0.0051);
  for (const ChangePiece& piece : change.pieces) {
    const bool isUnderside = piece.normal.z() < -0.9 && piece.corners[0].z() > 10;
    if (isUnderside) {
      EXPECT_NEAR(piece.mm, 0.3, 1e-9);
    }
  }
}

// Rivets are shells of their own that reach into the hull: what is inside it is no surface.
TEST(SurfaceChange, WhatARivetHidesInTheHullDoesNotCount) {
  const TriangleMesh hull = shapes::box({0, 0, 0}, {20, 20, 10});
  const TriangleMesh rivet = shapes::moved(shapes::sphere(0.8, 3), translation({10, 10, 10}));
  const SurfaceChange change = changeOf(stage(hull), stage(shapes::joined({hull, rivet})));
  ASSERT_TRUE(change.outward);
  EXPECT_NEAR(reachedMm(change.outward), 0.8, 0.0051);  // A corner of the sphere is at its top.
  // Triangles that cross the face are kept whole: no deeper than one of them is long.
  EXPECT_LT(reachedMm(change.inward), 0.25);
}

TEST(SurfaceChange, APinThatIsGoneIsSeenFromTheOldSurface) {
  const TriangleMesh plate = shapes::box({0, 0, 0}, {20, 20, 3});
  const TriangleMesh pin = shapes::moved(shapes::cylinder(1.5, -1, 5, 48), translation({10, 10, 3}));
  const StageSurface block = stage(shapes::joined({plate, pin})), detail = stage(plate);
  EXPECT_LT(reachedMm(changeOf(block, detail).outward), 1e-9);
  const SurfaceChange gone = changeOf(detail, block);
  ASSERT_TRUE(gone.outward);
  EXPECT_NEAR(reachedMm(gone.outward), 5, 0.0051);
  EXPECT_NEAR(gone.outward->place.at.z(), 8, 1e-9);
}

TEST(SurfaceChange, TheSameBytesOnOneThreadAndFour) {
  const StageSurface block = stage(shapes::sphere(8, 3));
  const StageSurface detail = stage(shapes::moved(shapes::sphere(8.2, 4), translation({0.1, 0.2, 0})));
  ChangeSettings four;
  four.threads = 4;
  const SurfaceChange a = changeOf(block, detail), b = changeOf(block, detail, four);
  ASSERT_EQ(a.pieces.size(), b.pieces.size());
  for (std::size_t i = 0; i < a.pieces.size(); ++i) {
    EXPECT_EQ(a.pieces[i].mm, b.pieces[i].mm);
    EXPECT_EQ(a.pieces[i].corners[0], b.pieces[i].corners[0]);
  }
  EXPECT_EQ(a.outward->place.mm, b.outward->place.mm);
  EXPECT_EQ(a.outward->upperMm, b.outward->upperMm);
}

}  // namespace
}  // namespace swingroom
