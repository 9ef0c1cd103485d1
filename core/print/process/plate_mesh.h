#pragma once

#include <Eigen/Core>
#include <set>
#include <utility>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Corners of a flat ring, counter-clockwise seen from +z.
using FlatRing = std::vector<Eigen::Vector2d>;

/// A convex opening through a plate, wider at both rims. Its cells of the grid have no other body.
struct PlateOpening {
  std::size_t fromX = 0, toX = 0;  ///< Grid lines, by index.
  std::size_t fromY = 0, toY = 0;
  FlatRing narrow, wide;  ///< As many corners; wholly inside the cells.
};

/// A plate on z = 0 over a grid of rectangles; a cell is full, engraved, or part of an opening.
/// Engraved cells that meet in one corner only, engraved cells at the edge or beside an opening are
/// not for it.
struct PlateGrid {
  std::vector<double> xs, ys;  ///< Grid lines, rising.
  double thicknessMm = 0, chamferMm = 0, engravedMm = 0;
  std::set<std::pair<std::size_t, std::size_t>> engraved;  ///< Cells by the lines before them.
  std::vector<PlateOpening> openings;
};

/// Its surface: closed, welded, outwards.
TriangleMesh meshOf(const PlateGrid& grid);

/// One ring of a loft.
struct LoftRing {
  double z = 0;
  FlatRing corners;
};

/// The body between rings of equally many corners, each joined to the next corner by corner, closed
/// by a fan about the middle at both ends. Each ring is star-shaped about the z axis.
TriangleMesh loftOf(const std::vector<LoftRing>& rings);

}  // namespace swingroom
