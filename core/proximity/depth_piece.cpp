#include "core/proximity/depth_piece.h"

#include "core/proximity/wall_distance.h"

namespace swingroom {

double upperOfBoth(const Bound& a, const Bound& b) {
  double least = std::min(a.upperMm(), b.upperMm());
  int high = a.peak(), low = b.peak();  // Lines over b's weight: falling and rising.
  for (int round = 0; round < 3; ++round) {
    const double fall = a.mm[high] - b.mm[high], rise = b.mm[low] - a.mm[low];
    if (fall <= 0 || rise <= 0) break;
    const double weight = std::clamp((a.mm[high] - a.mm[low]) / (fall + rise), 0.0, 1.0);
    double greatest = 0;
    int at = 0;
    for (int k = 0; k < a.count; ++k) {
      const double mm = (1 - weight) * a.mm[k] + weight * b.mm[k];
      if (mm > greatest) greatest = mm, at = k;
    }
    least = std::min(least, greatest);
    if (at == high || at == low) break;
    (a.mm[at] > b.mm[at] ? high : low) = at;
  }
  return least;
}

double distanceTo(const TriangleCorners& triangle, const Vector3d& p) {
  return (closestPointOnTriangle(p, triangle) - p).norm();
}

Bound boundByWall(const Solid& solid, const Piece& piece, const PieceFrame& frame,
                  std::uint32_t triangle) {
  const TriangleCorners& wall = solid.boundary().triangles()[triangle];
  Bound bound;
  if (piece.node != kNoNode) {
    const double atFrom = distanceTo(wall, frame.centreFrom_S);
    const double atTo = frame.span->still ? atFrom : distanceTo(wall, frame.centreTo_S);
    bound.mm[0] = std::max(atFrom, atTo) + frame.radius;
    bound.count = 1;
    return bound;
  }
  bound.count = frame.hull;
  distancesToTriangle(frame.hull_S.data(), frame.hull, wall, bound.mm.data());
  return bound;
}

double addNeighbour(const Solid& solid, const PieceFrame& frame, std::uint32_t triangle,
                    Bound& own) {
  const auto& triangles = solid.boundary().triangles();
  const int peak = own.peak();
  const auto& neighbours = solid.neighbours().of(triangle);
  const TriangleCorners* over = nullptr;
  double overMm = own.mm[peak], hollowMm = 0;
  for (std::size_t corner = 0; corner < 3; ++corner) {
    const auto& [number, apex] = neighbours[corner];
    if (number == WallNeighbours::kNone) continue;
    const TriangleCorners& neighbour = triangles[number];
    const double mm = distanceTo(neighbour, frame.hull_S[peak]);
    if (mm >= overMm) continue;
    const double hollow = WallNeighbours::hollowMm(triangles[triangle], corner, neighbour, apex);
    if (mm + hollow < overMm) overMm = mm + hollow, hollowMm = hollow, over = &neighbour;
  }
  if (!over) return own.upperMm();
  Bound both = own;
  distancesToTriangle(frame.hull_S.data(), frame.hull, *over, both.mm.data());
  for (int k = 0; k < own.count; ++k) both.mm[k] = std::min(own.mm[k], both.mm[k]) + hollowMm;
  if (both.upperMm() < own.upperMm()) own = both;
  return own.upperMm();
}

std::uint8_t longestEdge(const TriangleCorners& corners) {
  std::array<double, 3> lengths;
  for (int i = 0; i < 3; ++i) lengths[i] = (corners[(i + 1) % 3] - corners[i]).squaredNorm();
  return static_cast<std::uint8_t>(std::max_element(lengths.begin(), lengths.end()) -
                                   lengths.begin());
}

double chooseEdge(Piece& piece, const PlacedSpan& span, const TriangleCorners& wall) {
  TriangleCorners at;
  std::array<double, 3> mm;
  for (int i = 0; i < 3; ++i) {
    at[i] = span.X_SF_middle * piece.corners_F[i];
    mm[i] = distanceTo(wall, at[i]);
  }
  const auto excessOf = [&](int i) {
    const int j = (i + 1) % 3;
    return std::max(mm[i], mm[j]) - distanceTo(wall, 0.5 * (at[i] + at[j]));
  };
  double most = excessOf(piece.edge) + kEqualMm;
  for (int i = 0; i < 3; ++i) {
    const double excess = excessOf(i);
    if (excess > most) most = excess, piece.edge = static_cast<std::uint8_t>(i);
  }
  return *std::max_element(mm.begin(), mm.end()) - piece.centreMm;
}

}  // namespace swingroom
