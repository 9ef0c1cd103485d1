#include <gtest/gtest.h>

#include <cmath>

#include "app/viewport/paint/paint_mesh.h"
#include "core/base/transform.h"
#include "tests/support/shapes.h"

// Painted surfaces before they are drawn. Expected figures by hand.
namespace swingroom {
namespace {

/// Two triangles of a square of 2 mm, sharing the diagonal from (0, 0) to (2, 2).
TriangleMesh square() {
  return {{{0, 0, 0}, {2, 0, 0}, {2, 2, 0}, {0, 2, 0}}, {{0, 1, 2}, {0, 2, 3}}};
}

PaintPiece wholeTriangle(const TriangleMesh& mesh, std::uint32_t triangle, float figureMm,
                         PieceState state = PieceState::figured) {
  return {{mesh.corner(triangle, 0), mesh.corner(triangle, 1), mesh.corner(triangle, 2)},
          triangle,
          figureMm,
          state};
}

PaintMesh painted(const TriangleMesh& mesh, std::vector<PaintPiece> pieces, PaintBlend blend) {
  return makePaintMesh(
      mesh, std::make_shared<const PaintedSurface>(PaintedSurface{std::move(pieces), blend}));
}

/// Of a drawn piece's corner.
const PaintVertex& cornerOf(const PaintMesh& paint, std::size_t piece, std::size_t corner) {
  return paint.vertices[paint.indices[3 * piece + corner]];
}

TEST(PaintMesh, LowestIsNowhereAboveThePieceAndMeetsAtSharedCorners) {
  const TriangleMesh mesh = square();
  const PaintMesh paint =
      painted(mesh, {wholeTriangle(mesh, 0, 1), wholeTriangle(mesh, 1, 3)}, PaintBlend::lowest);
  for (const std::size_t corner : {0U, 1U, 2U}) EXPECT_EQ(cornerOf(paint, 0, corner).figureMm, 1);
  EXPECT_EQ(cornerOf(paint, 1, 0).figureMm, 1);
  EXPECT_EQ(cornerOf(paint, 1, 1).figureMm, 1);
  EXPECT_EQ(cornerOf(paint, 1, 2).figureMm, 3);  // Its own corner.
  EXPECT_EQ(paint.vertices.size(), 4u);          // Shared ones once.
}

TEST(PaintMesh, MeanAndStepsAreTheMeanAndThePiecesOwn) {
  const TriangleMesh mesh = square();
  const std::vector<PaintPiece> pieces{wholeTriangle(mesh, 0, 1), wholeTriangle(mesh, 1, 3)};
  const PaintMesh mean = painted(mesh, pieces, PaintBlend::mean);
  EXPECT_EQ(cornerOf(mean, 0, 0).figureMm, 2);
  EXPECT_EQ(cornerOf(mean, 0, 1).figureMm, 1);
  const PaintMesh steps = painted(mesh, pieces, PaintBlend::steps);
  for (const std::size_t corner : {0U, 1U, 2U}) {
    EXPECT_EQ(cornerOf(steps, 0, corner).figureMm, 1);
    EXPECT_EQ(cornerOf(steps, 1, corner).figureMm, 3);
  }
}

TEST(PaintMesh, WhatIsLeftOutDoesNotCountForItsNeighboursWhatIsBrokenDoes) {
  const TriangleMesh mesh = square();
  const PaintMesh left =
      painted(mesh, {wholeTriangle(mesh, 0, 0, PieceState::leftOut), wholeTriangle(mesh, 1, 3)},
              PaintBlend::lowest);
  EXPECT_EQ(cornerOf(left, 1, 0).figureMm, 3);
  EXPECT_EQ(cornerOf(left, 0, 0).state, static_cast<float>(PieceState::leftOut));
  const PaintMesh broken =
      painted(mesh, {wholeTriangle(mesh, 0, 0, PieceState::broken), wholeTriangle(mesh, 1, 3)},
              PaintBlend::lowest);
  EXPECT_EQ(cornerOf(broken, 1, 0).figureMm, 0);
  EXPECT_EQ(cornerOf(broken, 1, 0).state, static_cast<float>(PieceState::figured));
}

// The ball's own normal at a point is the point's direction. Over a facet of 1 280 the interpolated
// one is off by less than its edges' angle squared, (9 degrees)^2 / 2 in radians: 0.7 degrees.
TEST(PaintMesh, PiecesInsideAFacetAreAsSmoothAsTheSurface) {
  const TriangleMesh ball = shapes::sphere(10, 3);
  std::vector<PaintPiece> pieces;
  for (std::uint32_t t = 0; t < ball.triangles.size(); ++t) {
    const Vector3d a = ball.corner(t, 0), b = ball.corner(t, 1), c = ball.corner(t, 2);
    const Vector3d middle = (a + b + c) / 3;
    pieces.push_back({{a, b, middle}, t, 1});
    pieces.push_back({{b, c, middle}, t, 1});
    pieces.push_back({{c, a, middle}, t, 1});
  }
  const PaintMesh paint = painted(ball, pieces, PaintBlend::mean);
  ASSERT_EQ(paint.indices.size(), 3 * pieces.size());
  for (const PaintVertex& vertex : paint.vertices) {
    const Vector3d p = vertex.position.cast<double>() + paint.middle;
    const double cosine = p.normalized().dot(vertex.normal.cast<double>());
    EXPECT_GT(cosine, std::cos(radFromDeg(0.7)));
  }
}

TEST(PaintMesh, TellsWhichPieceOfATriangleIsAtAPoint) {
  const TriangleMesh mesh = square();
  const Vector3d a(0, 0, 0), b(2, 0, 0), c(2, 2, 0), ab(1, 0, 0), bc(2, 1, 0), ca(1, 1, 0);
  const PaintMesh paint = painted(mesh,
                                  {wholeTriangle(mesh, 1, 9),
                                   {{a, ab, ca}, 0, 1},
                                   {{ab, b, bc}, 0, 2},
                                   {{ca, bc, c}, 0, 3},
                                   {{ab, bc, ca}, 0, 4}},
                                  PaintBlend::steps);
  EXPECT_EQ(pieceAt(paint, 0, (a + ab + ca) / 3), 1u);
  EXPECT_EQ(pieceAt(paint, 0, (ab + b + bc) / 3), 2u);
  EXPECT_EQ(pieceAt(paint, 0, (ca + bc + c) / 3), 3u);
  EXPECT_EQ(pieceAt(paint, 0, (ab + bc + ca) / 3), 4u);
  EXPECT_EQ(pieceAt(paint, 1, {0.5, 1.5, 0}), 0u);
  EXPECT_EQ(pieceAt(paint, 2, a), std::nullopt);
}

TEST(PaintMesh, WhatIsNotOfTheMeshOrNotFiniteIsLeftOut) {
  const TriangleMesh mesh = square();
  PaintPiece lost = wholeTriangle(mesh, 0, 1);
  lost.source = 2;
  PaintPiece nowhere = wholeTriangle(mesh, 0, 1);
  nowhere.corners[1].x() = std::nan("");
  const PaintMesh paint =
      painted(mesh, {lost, nowhere, wholeTriangle(mesh, 1, 3)}, PaintBlend::lowest);
  EXPECT_EQ(paint.indices.size(), 3u);
  EXPECT_EQ(pieceAt(paint, 1, {0.5, 1.5, 0}), 2u);
  EXPECT_EQ(pieceAt(paint, 0, {1.5, 0.5, 0}), std::nullopt);
  EXPECT_TRUE(painted(TriangleMesh(), {}, PaintBlend::mean).indices.empty());
}

TEST(PaintScale, MixesBetweenStopsAndGoesOnBeyondThem) {
  PaintScale scale;
  scale.stops = {{-1, QColor(0, 0, 0)}, {0, QColor(100, 100, 100)}, {2, QColor(200, 0, 40)}};
  EXPECT_EQ(colourAt(scale, -5), QColor(0, 0, 0));
  EXPECT_EQ(colourAt(scale, 0).rgb(), QColor(100, 100, 100).rgb());
  EXPECT_EQ(colourAt(scale, 1).rgb(), QColor(150, 50, 70).rgb());
  EXPECT_EQ(colourAt(scale, 7), QColor(200, 0, 40));
  EXPECT_TRUE(colourAt(PaintScale(), 1).isValid());
}

TEST(PaintScale, BandsLieBetweenLevelsAndTheEnds) {
  PaintScale scale;
  scale.stops = {{0, Qt::white}, {5, Qt::black}};
  scale.levelsMm = {1, 2};
  EXPECT_EQ(bandMiddle(scale, 0.2), 0.5);
  EXPECT_EQ(bandMiddle(scale, 1), 1.5);  // A level belongs to the band above it.
  EXPECT_EQ(bandMiddle(scale, 1.9), 1.5);
  EXPECT_EQ(bandMiddle(scale, 9), 3.5);
}

}  // namespace
}  // namespace swingroom
