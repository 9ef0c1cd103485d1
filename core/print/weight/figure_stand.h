#pragma once

#include <optional>
#include <vector>

#include "core/print/weight/hung_figure.h"

namespace swingroom {

/// How a figure touches the floor.
enum class StandKind {
  stands,  ///< On three points or more, its centre of mass over them.
  falls,   ///< On three points or more, its centre of mass beside them.
  onEdge,  ///< In one line only: it tips over.
  onPoint,
  unknown,  ///< No part has a mass or a mesh.
};

/// One edge of the support polygon.
struct TipEdge {
  Vector3d from_W = Vector3d::Zero(), to_W = Vector3d::Zero();
  Vector3d outwards_W = Vector3d::Zero();  ///< Level, unit: it tips that way.
  double distanceMm = 0;  ///< Of the centre of mass inside the edge; negative: it is beyond it.
  double tipRad = 0;      ///< How far it has to be tipped over this edge before it falls.

  bool operator==(const TipEdge&) const = default;
};

/// Points of one part on the floor.
struct FloorPoint {
  PartId part;
  Vector3d point_W = Vector3d::Zero();

  bool operator==(const FloorPoint&) const = default;
};

/// How a figure stands, all of it taken as one rigid piece but for what stands apart
/// (`HungFigure::standsApart`).
struct FigureStand {
  StandKind kind = StandKind::unknown;
  double floorMm = 0;              ///< Along up: where the lowest point is.
  double toleranceMm = 0;          ///< Points so far above it were taken as touching.
  std::vector<PartId> on;          ///< Parts that touch the floor.
  std::vector<FloorPoint> points;  ///< Hulls of what each of them touches it with.
  std::vector<TipEdge> edges;      ///< Of the support polygon, counter-clockwise seen from above.
  HungMass mass;
  double heightMm = 0;  ///< Of the centre of mass over the floor.
  /// Least distance of the centre of mass from an edge, seen from above; negative: beyond it.
  double marginMm = 0;
  double marginOffMm = 0;               ///< It is as good as this: the masses' brackets.
  double leastTipRad = 0;               ///< Of all edges; negative: it falls.
  Vector3d falls_W = Vector3d::Zero();  ///< Level, unit: the way it tips most easily.

  bool operator==(const FigureStand&) const = default;
};

/// @param up_W  Unit.
/// @param toleranceMm  Corners no higher than this over the lowest one touch the floor: a figure
///     rocks by as much until it stands, and a layer is no finer.
FigureStand figureStandOf(const Assembly& assembly, const HungFigure& figure, const Vector3d& up_W,
                          double toleranceMm);

}  // namespace swingroom
