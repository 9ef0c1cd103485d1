#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>

#include "core/proximity/deepest_place.h"

namespace swingroom {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr std::uint32_t kNoNode = 0xffffffff;
constexpr std::uint32_t kNoWall = 0xffffffff;
constexpr double kEqualMm = 1e-9;
constexpr int kMostHull = 15;  ///< Six corners, and nine where a plane cuts between them.

enum class Side : std::uint8_t { unknown, inside, outside };

/// A piece of a surface over a span of time: a node of its tree, or a flat piece of a triangle.
struct Piece {
  double upperMm = kFar;
  std::uint32_t node = kNoNode;
  std::uint32_t span = 0;
  std::uint32_t wall = 0;  ///< The boundary's triangle nearest to the centre.
  std::uint16_t which = 0;
  Side side = Side::unknown;          ///< Of the centre, in the middle of the span.
  std::uint32_t otherWall = kNoWall;  ///< Another triangle that is near to some corner of it.
  bool hasWall = false;
  bool isClear = false;  ///< All of it is off the boundary, over all its span: it has one side.
  bool halveTime = false;
  std::uint8_t edge = 0;  ///< Of a flat piece: the one to halve.
  /// The centre's distance from the boundary, in the middle; the true one is up to `slackMm` less.
  double centreMm = 0, slackMm = 0;
  Vector3d centre_S = Vector3d::Zero();
  Vector3d peak_S = Vector3d::Constant(kFar);  ///< The place that was last looked at closely.
  TriangleCorners corners_F{Vector3d::Zero(), Vector3d::Zero(), Vector3d::Zero()};
};

/// What the bounds of one piece are made from.
struct PieceFrame {
  const PlacedSpan* span = nullptr;
  double radius = 0, travelMm = 0, bendMm = 0;
  Vector3d centreFrom_S, centreTo_S;
  /// A flat piece is in the hull of these, and the bend: its corners at both ends. What is known
  /// to be outside is cut off.
  std::array<Vector3d, kMostHull> hull_S;
  int hull = 0;
  TriangleCorners middle_S;  ///< A flat piece's, between its ends.
};

/// A convex bound of the distance from the boundary, at a flat piece's corners at both ends of a
/// span: its greatest value bounds all of the piece. Of a node: of the whole, in [0].
struct Bound {
  std::array<double, kMostHull> mm;
  int count = 0;

  double upperMm() const { return *std::max_element(mm.begin(), mm.begin() + count); }
  int peak() const {
    return static_cast<int>(std::max_element(mm.begin(), mm.begin() + count) - mm.begin());
  }
};

/// The lesser of two bounds is at most any mean of the two, which is convex too: between two faces
/// of a sheet no point is farther than half the sheet from both. The best mean, or nearly.
double upperOfBoth(const Bound& a, const Bound& b);

double distanceTo(const TriangleCorners& triangle, const Vector3d& p);

/// Everything of the piece, at every instant, is at most this, and the bend, from one triangle of
/// the boundary.
Bound boundByWall(const Solid& solid, const Piece& piece, const PieceFrame& frame,
                  std::uint32_t triangle);

/// Makes `own`, of one triangle, a bound by it and the neighbour that the piece reaches over, if
/// that is lower: every point of the hull of the two is near to one of them.
double addNeighbour(const Solid& solid, const PieceFrame& frame, std::uint32_t triangle,
                    Bound& own);

/// The edge to halve a flat piece at by its size alone.
std::uint8_t longestEdge(const TriangleCorners& corners);

/// The edge along which the distance from the wall bends or rises most; of equals the longest.
/// @returns How much farther than the centre a corner is.
double chooseEdge(Piece& piece, const PlacedSpan& span, const TriangleCorners& wall);

}  // namespace swingroom
