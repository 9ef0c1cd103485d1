// Distances of segments, points and triangles against check_values 2.1 and 2.2. K: closed form,
// recomputed; S: sourced. Every row is asked both ways round. Tolerance where none is said: 1e-14,
// rounding of numbers below 10.
#include "core/mesh/closest_points.h"

#include <gtest/gtest.h>

#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kRounding = 1e-14;

struct Segment {
  Vector3d from, to;
};

double shareOf(const Segment& segment, const Vector3d& point) {
  const Vector3d way = segment.to - segment.from;
  return (point - segment.from).dot(way) / way.squaredNorm();
}

ClosestPoints between(const Segment& a, const Segment& b) {
  return closestBetweenSegments(a.from, a.to, b.from, b.to);
}

void expectDistance(const Segment& a, const Segment& b, double expected,
                    double tolerance = kRounding) {
  for (const ClosestPoints& points : {between(a, b), between(b, a)}) {
    EXPECT_NEAR(points.distanceMm, expected, tolerance);
    EXPECT_NEAR((points.onB - points.onA).norm(), expected, tolerance);
  }
}

/// Also where along each segment.
void expectNearest(const Segment& a, const Segment& b, double expected, double shareA,
                   double shareB, double tolerance = kRounding) {
  expectDistance(a, b, expected, tolerance);
  const ClosestPoints points = between(a, b);
  EXPECT_NEAR(shareOf(a, points.onA), shareA, tolerance);
  EXPECT_NEAR(shareOf(b, points.onB), shareB, tolerance);
}

void expectDistance(const TriangleCorners& a, const TriangleCorners& b, double expected) {
  for (const ClosestPoints& points :
       {closestBetweenTriangles(a, b), closestBetweenTriangles(b, a)}) {
    EXPECT_NEAR(points.distanceMm, expected, kRounding);
    EXPECT_NEAR((points.onB - points.onA).norm(), expected, kRounding);
  }
}

void expectNearest(const Vector3d& p, const TriangleCorners& triangle, const Vector3d& expected,
                   double distance) {
  const Vector3d nearest = closestPointOnTriangle(p, triangle);
  EXPECT_LT((nearest - expected).norm(), kRounding) << "nearest " << nearest.transpose();
  EXPECT_NEAR((nearest - p).norm(), distance, kRounding);
}

const TriangleCorners kA = {Vector3d(0, 0, 0), Vector3d(4, 0, 0), Vector3d(0, 3, 0)};
const TriangleCorners kB = {Vector3d(0, 0, 0), Vector3d(1, 0, 0), Vector3d(0, 1, 0)};

// D-S1, K.
TEST(SegmentDistance, CrossedSegmentsAreNearestInTheirMiddles) {
  expectNearest({{-1, 0, 0}, {1, 0, 0}}, {{0, -1, 2}, {0, 1, 2}}, 2, 0.5, 0.5);
}

// D-S2, K; where is not unique.
TEST(SegmentDistance, ParallelSegmentsAreAsFarAsTheirLines) {
  expectDistance({{0, 0, 0}, {4, 0, 0}}, {{1, 3, 0}, {5, 3, 0}}, 3);
}

// D-S3, K.
TEST(SegmentDistance, EndToEnd) {
  expectNearest({{0, 0, 0}, {1, 0, 0}}, {{2, 1, 0}, {3, 2, 0}}, std::sqrt(2.0), 1, 0);
}

// D-S4, K.
TEST(SegmentDistance, InsideToEnd) {
  expectNearest({{0, 0, 0}, {2, 0, 0}}, {{1, 1, 1}, {1, 3, 2}}, std::sqrt(2.0), 0.5, 0);
}

// D-S5, K.
TEST(SegmentDistance, SkewSegmentsOffTheirMiddles) {
  expectNearest({{0, 0, 0}, {10, 0, 0}}, {{5, -3, 4}, {8, 3, 4}}, 4, 0.65, 0.5);
}

// D-S6, K; the first segment is a point.
TEST(SegmentDistance, FromAPoint) {
  const Segment b{{3, 4, 12}, {3, 4, 20}};
  expectDistance({{0, 0, 0}, {0, 0, 0}}, b, 13);
  EXPECT_NEAR(shareOf(b, between({{0, 0, 0}, {0, 0, 0}}, b).onB), 0, kRounding);
}

// D-S7, K.
TEST(SegmentDistance, BeyondBothEnds) {
  expectNearest({{0, 0, 0}, {10, 0, 0}}, {{12, 1, 2}, {12, 5, 2}}, 3, 1, 0);
}

// D-E1: inputs S, from Eberly, Robust Computation of Distance Between Line Segments; they cross, so
// 0. The published 9.7307e-10 is the rounding of one method. Tolerance of the table.
TEST(SegmentDistance, NearlyParallelSegmentsThatCross) {
  expectDistance({{-1.0264718499965966, 9.6163341007195407e-7, 0},
                  {0.91950808032415809, -1.0094441192690283e-6, 0}},
                 {{-1.0629447383806110, 9.2709540082141753e-7, 0},
                  {1.0811583868227901, -1.0670017179567367e-6, 0}},
                 0, 2e-9);
}

// D-E2, S, same source, recomputed in rational arithmetic: the plain determinant formula says
// 0.4326.
TEST(SegmentDistance, NearlyParallelSegmentsThatDoNotCross) {
  expectDistance({{-1.0896217473782599, 9.7236145595088601e-7, 0},
                  {0.91220578597858548, -9.4369829432107506e-7, 0}},
                 {{-0.90010447502136237, 9.0671446351334441e-7, 0},
                  {1.0730877178721130, -9.8185787633992740e-7, 0}},
                 1.1575046138574e-7, 1e-10);
}

// D-E3, S, same source, recomputed in rational arithmetic.
TEST(SegmentDistance, EndToInsideInGeneralPlace) {
  const Segment a{{0.77998990099877119, 0.61192502360790968, -0.22703111823648214},
                  {0.53215344529598951, 0.85724585503339767, -0.10102437809109688}};
  const Segment b{{-0.21277333982288837, 0.35091548087075353, -0.49557160679250956},
                  {0.11881479667499661, 0.022494725417345762, -0.66426620958372951}};
  expectNearest(a, b, 0.98292397116489, 1, 0.057504219522, 1e-12);
}

// D-P1, K.
TEST(PointTriangle, NearestToTheFace) {
  expectNearest({1, 1, 5}, kA, {1, 1, 0}, 5);
}

// D-P2, K.
TEST(PointTriangle, NearestToACorner) {
  expectNearest({-1, -1, 0}, kA, {0, 0, 0}, std::sqrt(2.0));
}

// D-P3, K.
TEST(PointTriangle, NearestToAnEdge) {
  expectNearest({2, -3, 0}, kA, {2, 0, 0}, 3);
}

// D-P4, K.
TEST(PointTriangle, NearestToAFarCorner) {
  expectNearest({6, -1, 2}, kA, {4, 0, 0}, 3);
}

// D-P5, K: sqrt(22.16).
TEST(PointTriangle, NearestToTheLongEdge) {
  expectNearest({5, 5, 1}, kA, {2.24, 1.32, 0}, std::sqrt(22.16));
}

// D-T1, K; all D-T rows confirmed with CGAL 5.5.1.
TEST(TriangleDistance, FaceOverFace) {
  expectDistance(kB, {Vector3d(0, 0, 0.5), Vector3d(1, 0, 0.5), Vector3d(0, 1, 0.5)}, 0.5);
}

// D-T2, K.
TEST(TriangleDistance, SideBySideInOnePlane) {
  expectDistance(kB, {Vector3d(2, 0, 0), Vector3d(3, 0, 0), Vector3d(2, 1, 0)}, 1);
}

// D-T3, K.
TEST(TriangleDistance, CornerOverFace) {
  expectDistance(kB, {Vector3d(0.2, 0.2, 0.3), Vector3d(1.2, 0.2, 1.3), Vector3d(0.2, 1.2, 1.3)},
                 0.3);
}

// D-T4, K.
TEST(TriangleDistance, EdgeOverEdge) {
  expectDistance({Vector3d(-1, 0, 0), Vector3d(1, 0, 0), Vector3d(0, -1, -1)},
                 {Vector3d(0, -1, 0.4), Vector3d(0, 1, 0.4), Vector3d(0.5, 0, 1.4)}, 0.4);
}

// D-T5, K: pierced, exactly 0, with one common point.
TEST(TriangleDistance, PiercedTrianglesMeet) {
  const TriangleCorners flat = {Vector3d(-1, -1, 0), Vector3d(1, -1, 0), Vector3d(0, 1, 0)};
  const TriangleCorners upright = {Vector3d(0, 0, -1), Vector3d(0, 0, 1), Vector3d(0, 2, 0)};
  for (const ClosestPoints& points :
       {closestBetweenTriangles(flat, upright), closestBetweenTriangles(upright, flat)}) {
    EXPECT_EQ(points.distanceMm, 0);
    EXPECT_EQ(points.onA, points.onB);
  }
}

// D-T6, K: sqrt(22.16) = 4.7074409184.
TEST(TriangleDistance, CornerToEdge) {
  expectDistance(kA, {Vector3d(5, 5, 1), Vector3d(6, 5, 2), Vector3d(5, 6, 2)}, std::sqrt(22.16));
}

// D-T7, K: exactly 0.
TEST(TriangleDistance, TrianglesWithACommonCornerTouch) {
  const TriangleCorners other = {Vector3d(1, 0, 0), Vector3d(2, 0, 1), Vector3d(2, 1, 1)};
  EXPECT_EQ(closestBetweenTriangles(kB, other).distanceMm, 0);
  EXPECT_EQ(closestBetweenTriangles(other, kB).distanceMm, 0);
}

}  // namespace
}  // namespace swingroom
