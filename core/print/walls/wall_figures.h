#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "core/base/transform.h"

namespace swingroom {

/// What a place of a surface is part of.
enum class WallKind : std::uint8_t {
  none,  ///< Nothing faces it, or a low relief: no wall.
  wall,  ///< Two sides that roughly oppose each other.
  neck,  ///< Thin in two directions: a post, a waist.
  edge,  ///< Where a wall tapers to nothing at an edge or a tip sharper than 60 degrees.
};

/// A small flat piece of the surface and how thick the material is there.
///
/// The thickness at a point is the diameter of the smallest ball that touches the surface there
/// from inside and on another side, at most 30 degrees off the straight way in: on a face whose
/// outside looks away by 120 degrees or more, or on an edge that reaches in as a groove's bottom
/// does. So no wall is thin for standing beside a square edge.
struct WallPlace {
  static constexpr std::uint32_t kNoSpot = std::numeric_limits<std::uint32_t>::max();

  std::array<Vector3d, 3> corners_P;  ///< In the part's own frame, mm, as its triangle turns.
  std::uint32_t triangle = 0;         ///< The triangle of the part's mesh that it is a piece of.
  WallKind kind = WallKind::none;
  /// Proven: at no point of the piece is it thinner. Of a piece of kind `none`, as for a wall.
  double lowerMm = 0;
  /// Reached at a point of the piece; `mostMm` of the map: it is thicker than was looked for. Of
  /// kind `none` it is the straight way through the material, or the width of a low relief.
  double upperMm = 0;
  Vector3d at_P = Vector3d::Zero();     ///< Of that point.
  Vector3d other_P = Vector3d::Zero();  ///< Where the ball touches the other side.
  std::uint32_t spot = kNoSpot;         ///< Which of the map's `spots` it belongs to.

  bool operator==(const WallPlace&) const = default;
};

/// Pieces that are one wall or neck, seen at its thinnest.
struct ThinSpot {
  WallKind kind = WallKind::wall;  ///< Or `neck`.
  double lowerMm = 0;              ///< Of its thinnest piece; as there.
  double upperMm = 0;
  Vector3d at_P = Vector3d::Zero();  ///< In the middle of the material, where it is thinnest.
  /// Held along one side only, or along none, so far as 90 times its thickness round the spot can
  /// tell. A cup's wall is held along one side.
  bool free = false;
  /// Of a neck: its width across the thickness, measured at the spot.
  double acrossMm = 0;
  double areaMm2 = 0;  ///< Of its pieces, both sides, that are at most a fifth thicker.

  bool operator==(const ThinSpot&) const = default;
};

/// A run of edges sharper than 60 degrees.
struct BladeEdge {
  double lengthMm = 0;
  double openingRad = 0;  ///< Between its faces, through the material; the sharpest of it.
  Vector3d at_P = Vector3d::Zero();  ///< Where it is sharpest.

  bool operator==(const BladeEdge&) const = default;
};

/// A round pin that stands out, or a part that is one.
struct PinFigure {
  double diameterMm = 0;  ///< Of the cylinder that was meshed.
  double lengthMm = 0;
  Vector3d middle_P = Vector3d::Zero();  ///< Of its axis.
  Vector3d along_P = Vector3d::UnitZ();  ///< Unit.
  double residualMm = 0;                 ///< How far a corner is off it.

  bool operator==(const PinFigure&) const = default;
};

/// Thickness over one mesh's whole surface. Sorted so that the same mesh gives the same bytes.
struct WallMap {
  bool judged = false;
  std::string whyNot;   ///< One clause, if it is not judged.
  double mostMm = 0;    ///< Thicker is not told apart.
  double provenMm = 0;  ///< No `lowerMm` is above it.
  double pieceMm = 0;   ///< Longest edge of a piece that is not equally thick all over.
  /// Every triangle that can be seen from outside, in order, each in one piece or several.
  std::vector<WallPlace> places;
  std::vector<ThinSpot> spots;    ///< Thinnest first.
  std::vector<BladeEdge> blades;  ///< Longest first; those of 2 mm and more.
  std::vector<PinFigure> pins;    ///< Thinnest first.
  /// Of the spots: no wall or neck is thinner than `leastLowerMm`, and one is no thicker than
  /// `leastUpperMm`. Edges, low reliefs and rims are left out, by what their shape looks like;
  /// none: nothing is as thin as `mostMm`.
  std::optional<double> leastLowerMm, leastUpperMm;
  /// Greatest `upperMm - lowerMm` of walls and necks up to `provenMm`: how good the map is.
  double accuracyMm = 0;

  bool operator==(const WallMap&) const = default;
};

}  // namespace swingroom
