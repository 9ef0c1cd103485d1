// Silhouettes and shapes compared, by closed forms: areas of discs and squares, lenses, Hausdorff
// distances. Tolerances are what a grid of the stated cells can tell.
#include <gtest/gtest.h>

#include <cmath>

#include "core/outline/drawn_shape.h"
#include "core/outline/outline_match.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;

const ViewAxes kFront = axesOf(StandardView::front, {0, 0, 1}, {0, -1, 0});

/// Discs in the front view: balls of radius 20 mm, so finely meshed that facets lie within 0.01 mm.
TriangleMesh ballAt(double x, double z) {
  Pose X = Pose::Identity();
  X.translation() = Vector3d(x, 3, z);
  return shapes::moved(shapes::sphere(20, 6), X);
}

CoverageGrid gridFor(const Silhouette& a, const Silhouette& b, int cells) {
  return gridOver(a.box().merged(b.box()), cells);
}

/// A grid tells an area to about half a cell along the outline; that a random one is far better is
/// no promise.
double areaTolerance(double outlineMm, double cellMm) {
  return 0.5 * outlineMm * cellMm;
}

TEST(StandardView, AxesAreThoseOfOneWhoStandsThere) {
  const Vector3d up(0, 0, 1), front(0, -1, 0);  // Its right hand is at -x.
  EXPECT_EQ(kFront.right_W, Vector3d(1, 0, 0));
  EXPECT_EQ(kFront.away_W, Vector3d(0, 1, 0));
  EXPECT_EQ(axesOf(StandardView::right, up, front).right_W, front);
  for (const StandardView view : {StandardView::front, StandardView::back, StandardView::left,
                                  StandardView::right, StandardView::top, StandardView::below}) {
    const ViewAxes axes = axesOf(view, up, front);
    // Right, up and towards the eye are a right-handed frame in every picture.
    EXPECT_NEAR((axes.right_W.cross(axes.up_W) + axes.away_W).norm(), 0, 1e-12);
  }
}

TEST(Silhouette, OfABallIsADisc) {
  const Silhouette ball(ballAt(0, 0), kFront);
  const CoverageGrid grid = gridOver(ball.box(), 1000);
  const Coverage disc = ball.on(grid);
  EXPECT_NEAR(disc.areaMm2(), kPi * 400, areaTolerance(2 * kPi * 20, grid.cellMm));
  for (const OutlineStretch& stretch : outlineOf(disc)) {
    for (const Vector2d& p : stretch) EXPECT_NEAR(p.norm(), 20, 0.01 + grid.cellMm);
  }
}

TEST(Silhouette, PartsUniteAndHolesStay) {
  const TriangleMesh tube = shapes::tube(10, 6, 0, 5, 256);  // Seen along z: a ring.
  const Silhouette ring(tube, axesOf(StandardView::top, {0, 0, 1}, {0, -1, 0}));
  const CoverageGrid grid = gridOver(ring.box(), 800);
  EXPECT_NEAR(ring.on(grid).areaMm2(), kPi * (100 - 36), areaTolerance(2 * kPi * 16, grid.cellMm));
  const Silhouette two(
      shapes::joined({shapes::box({0, 0, 0}, {10, 1, 10}), shapes::box({5, 4, 5}, {15, 5, 15})}),
      kFront);
  const CoverageGrid over = gridOver(two.box(), 900);
  EXPECT_NEAR(two.on(over).areaMm2(), 175, areaTolerance(60, over.cellMm));
}

TEST(Outline, GoesRoundWithTheInsideOnItsLeft) {
  const Silhouette box(shapes::box({0, 0, 0}, {10, 1, 6}), kFront);
  const Coverage coverage = box.on(gridOver(box.box(), 300));
  double twiceArea = 0;  // Green: the sum of cross products round an outline is twice its area.
  for (const auto& [a, b] : outlineOf(coverage)) twiceArea += a.x() * b.y() - a.y() * b.x();
  EXPECT_NEAR(twiceArea / 2, 60, areaTolerance(32, coverage.grid.cellMm));
}

// Two discs of radius r, d apart: lens 2 r^2 acos(d / 2r) - d/2 sqrt(4 r^2 - d^2); the outlines are
// d apart at most, both ways.
TEST(OutlineMatch, OfADiscAndOneShifted) {
  for (const double d : {0.0, 2.5, 11.0, 30.0}) {
    const Silhouette a(ballAt(0, 0), kFront), b(ballAt(d * 0.6, d * 0.8), kFront);
    const CoverageGrid grid = gridFor(a, b, 1200);
    const OutlineMatch match = matchOutlines(a.on(grid), b.on(grid));
    const double r = 20;
    const double lens = 2 * r * r * std::acos(d / (2 * r)) - d / 2 * std::sqrt(4 * r * r - d * d);
    EXPECT_NEAR(match.bothMm2, lens, areaTolerance(2 * kPi * r, grid.cellMm)) << d;
    EXPECT_NEAR(match.share(), lens / (2 * kPi * r * r - lens), 0.01) << d;
    const double told = 2 * grid.cellMm + 0.01;  // And the facets of the balls.
    ASSERT_TRUE(match.firstToSecond && match.secondToFirst);
    EXPECT_NEAR(match.firstToSecond->mm, d, told) << d;
    EXPECT_NEAR(match.secondToFirst->mm, d, told) << d;
  }
}

// A square of side 2r about a disc of radius r: corners are r (sqrt 2 - 1) from it; from the disc
// to the square no place is as far as at 45 degrees, r (1 - 1 / sqrt 2).
TEST(OutlineMatch, OfADiscAndTheSquareAboutIt) {
  const double r = 20;
  const Silhouette disc(ballAt(0, 0), kFront);
  const Silhouette square(shapes::box({-r, 0, -r}, {r, 1, r}), kFront);
  const CoverageGrid grid = gridFor(disc, square, 1000);
  const OutlineMatch match = matchOutlines(disc.on(grid), square.on(grid));
  EXPECT_NEAR(match.bothMm2, kPi * r * r, areaTolerance(2 * kPi * r, grid.cellMm));
  EXPECT_NEAR(match.onlySecondMm2(), (4 - kPi) * r * r, areaTolerance(8 * r, grid.cellMm));
  EXPECT_NEAR(match.secondToFirst->mm, r * (std::sqrt(2) - 1), 2 * grid.cellMm + 0.01);
  EXPECT_NEAR(match.firstToSecond->mm, r * (1 - std::sqrt(0.5)), 2 * grid.cellMm + 0.01);
  EXPECT_NEAR(match.largestMm(), match.secondToFirst->mm, 1e-12);
  EXPECT_NEAR(match.secondToFirst->from.cwiseAbs().x(), r, 2 * grid.cellMm) << "at a corner";
}

TEST(OutlineMatch, OfNothingHasNoDeviation) {
  const Silhouette disc(ballAt(0, 0), kFront);
  const CoverageGrid grid = gridOver(disc.box(), 100);
  Coverage nothing = disc.on(grid);
  std::fill(nothing.inside.begin(), nothing.inside.end(), std::uint8_t{0});
  const OutlineMatch match = matchOutlines(disc.on(grid), nothing);
  EXPECT_FALSE(match.firstToSecond);
  EXPECT_EQ(match.share(), 0);
  EXPECT_THROW(matchOutlines(disc.on(grid), disc.on(gridOver(disc.box(), 90))),
               std::invalid_argument);
}

/// 60 x 40 pixels of paper with a rectangle of ink from (10, 5) up to (30, 25), filled or not.
DrawnPicture rectangle(bool filled) {
  DrawnPicture picture{60, 40, std::vector<std::uint8_t>(60 * 40, 12)};
  for (int row = 5; row < 25; ++row) {
    for (int column = 10; column < 30; ++column) {
      const bool rim = row == 5 || row == 24 || column == 10 || column == 29;
      if (filled || rim) picture.ink[static_cast<std::size_t>(row * 60 + column)] = 240;
    }
  }
  return picture;
}

TEST(DrawnShape, FilledOrDrawnAsALineItIsTheSame) {
  for (const bool filled : {true, false}) {
    const DrawnPicture picture = rectangle(filled);
    const int threshold = likelyThreshold(picture);
    EXPECT_GT(threshold, 12);
    EXPECT_LE(threshold, 240);
    const auto shape = shapeOf(picture, threshold);
    EXPECT_EQ(std::count(shape.begin(), shape.end(), 1), 400) << filled;
  }
}

TEST(DrawnShape, AnOpenLineEnclosesNothing) {
  DrawnPicture picture = rectangle(false);
  picture.ink[15 * 60 + 10] = 12;  // A gap in its left side.
  const auto shape = shapeOf(picture, 128);
  EXPECT_EQ(std::count(shape.begin(), shape.end(), 1), 4 * 19 - 1);
}

// Half a mm a pixel, the picture's middle at (100, 50): its upper left corner is at (85, 60), the
// rectangle from (90, 57.5) to (100, 47.5).
TEST(DrawnShape, LiesWhereThePictureIsLaid) {
  const DrawnPicture picture = rectangle(true);
  const auto shape = shapeOf(picture, 128);
  const DrawnPlace place{{100, 50}, 0.5};
  const Eigen::AlignedBox2d box = boxOf(picture, shape, place);
  EXPECT_TRUE(box.min().isApprox(Vector2d(90, 47.5), 1e-12)) << box.min().transpose();
  EXPECT_TRUE(box.max().isApprox(Vector2d(100, 57.5), 1e-12)) << box.max().transpose();
  const Silhouette plate(shapes::box({90, 0, 47.5}, {100, 1, 57.5}), kFront);
  const CoverageGrid grid = gridOver(box.merged(plate.box()), 400);
  const OutlineMatch match = matchOutlines(plate.on(grid), shapeOn(picture, shape, place, grid));
  EXPECT_GT(match.share(), 0.99);
  EXPECT_LE(match.largestMm(), 2 * grid.cellMm);
}

}  // namespace
}  // namespace swingroom
