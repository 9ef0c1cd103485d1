#include "core/print/process/plate_mesh.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/mesh/weld.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// Triangles with corners of their own, welded at the end.
class PlateTriangles {
 public:
  void add(const Vector3d& a, const Vector3d& b, const Vector3d& c) {
    const auto first = static_cast<std::uint32_t>(mesh_.vertices.size());
    mesh_.vertices.insert(mesh_.vertices.end(), {a, b, c});
    mesh_.triangles.push_back({first, first + 1, first + 2});
  }
  /// Counter-clockwise from outside.
  void add(const Vector3d& a, const Vector3d& b, const Vector3d& c, const Vector3d& d) {
    add(a, b, c);
    add(a, c, d);
  }
  TriangleMesh welded() const { return swingroom::welded(mesh_); }

 private:
  TriangleMesh mesh_;
};

Vector3d raised(const Vector2d& p, double z) {
  return {p.x(), p.y(), z};
}

/// The ring from its lowest corner on (of several the leftmost): then the directions of its edges
/// turn once round from 0.
FlatRing fromLowest(FlatRing ring) {
  const auto lowest =
      std::min_element(ring.begin(), ring.end(), [](const Vector2d& a, const Vector2d& b) {
        return a.y() != b.y() ? a.y() < b.y() : a.x() < b.x();
      });
  std::rotate(ring.begin(), lowest, ring.end());
  return ring;
}

/// Direction of an edge, 0 to 2 pi; past it at the end of the ring.
double directionOf(const FlatRing& ring, std::size_t edge) {
  if (edge >= ring.size()) return 10;
  const Vector2d along = ring[(edge + 1) % ring.size()] - ring[edge];
  const double angle = std::atan2(along.y(), along.x());
  return angle < 0 ? angle + 2 * std::numbers::pi : angle;
}

/// The flat between two convex rings, one wholly inside the other. Edges are taken by their
/// direction: each sees the corner of the other ring that is farthest along its normal.
void addFlatBetween(const FlatRing& innerRing, const FlatRing& outerRing, double z, bool faceUp,
                    PlateTriangles& triangles) {
  const FlatRing inner = fromLowest(innerRing), outer = fromLowest(outerRing);
  const auto add = [&](const Vector2d& a, const Vector2d& b, const Vector2d& c) {
    if (faceUp) {
      triangles.add(raised(a, z), raised(b, z), raised(c, z));
    } else {
      triangles.add(raised(a, z), raised(c, z), raised(b, z));
    }
  };
  std::size_t i = 0, o = 0;
  while (i < inner.size() || o < outer.size()) {
    const Vector2d &in = inner[i % inner.size()], &out = outer[o % outer.size()];
    if (directionOf(inner, i) < directionOf(outer, o)) {
      add(inner[++i % inner.size()], in, out);
    } else {
      add(out, outer[++o % outer.size()], in);
    }
  }
}

/// Upright or sloping band between two rings, the upper one above; `outside` of the ring is air.
void addBand(const FlatRing& low, double lowZ, const FlatRing& high, double highZ, bool outside,
             PlateTriangles& triangles) {
  for (std::size_t i = 0; i < low.size(); ++i) {
    const std::size_t next = (i + 1) % low.size();
    const Vector3d a = raised(low[i], lowZ), b = raised(low[next], lowZ);
    const Vector3d c = raised(high[next], highZ), d = raised(high[i], highZ);
    if (outside) {
      triangles.add(a, b, c, d);
    } else {
      triangles.add(b, a, d, c);
    }
  }
}

/// The grid's corners round the cells of an opening.
FlatRing rimOf(const PlateGrid& grid, const PlateOpening& opening) {
  FlatRing rim;
  for (std::size_t i = opening.fromX; i < opening.toX; ++i) {
    rim.emplace_back(grid.xs[i], grid.ys[opening.fromY]);
  }
  for (std::size_t j = opening.fromY; j < opening.toY; ++j) {
    rim.emplace_back(grid.xs[opening.toX], grid.ys[j]);
  }
  for (std::size_t i = opening.toX; i > opening.fromX; --i) {
    rim.emplace_back(grid.xs[i], grid.ys[opening.toY]);
  }
  for (std::size_t j = opening.toY; j > opening.fromY; --j) {
    rim.emplace_back(grid.xs[opening.fromX], grid.ys[j]);
  }
  return rim;
}

void addOpening(const PlateGrid& grid, const PlateOpening& opening, PlateTriangles& triangles) {
  const FlatRing rim = rimOf(grid, opening);
  const double top = grid.thicknessMm, chamfer = grid.chamferMm;
  addFlatBetween(opening.wide, rim, top, true, triangles);
  addFlatBetween(opening.wide, rim, 0, false, triangles);
  addBand(opening.wide, 0, opening.narrow, chamfer, false, triangles);
  addBand(opening.narrow, chamfer, opening.narrow, top - chamfer, false, triangles);
  addBand(opening.narrow, top - chamfer, opening.wide, top, false, triangles);
}

/// What the cells of the grid are without those of openings.
class PlateCells {
 public:
  explicit PlateCells(const PlateGrid& grid) : grid_(grid) {
    for (const PlateOpening& opening : grid.openings) {
      for (std::size_t i = opening.fromX; i < opening.toX; ++i) {
        for (std::size_t j = opening.fromY; j < opening.toY; ++j) open_.insert({i, j});
      }
    }
  }

  void addTo(PlateTriangles& triangles) const {
    for (std::size_t i = 0; i + 1 < grid_.xs.size(); ++i) {
      for (std::size_t j = 0; j + 1 < grid_.ys.size(); ++j) addCell(i, j, triangles);
    }
    addEdges(triangles);
  }

 private:
  double topOf(std::size_t i, std::size_t j) const {
    return grid_.thicknessMm - (grid_.engraved.contains({i, j}) ? grid_.engravedMm : 0);
  }
  Vector3d at(std::size_t i, std::size_t j, double z) const {
    return {grid_.xs[i], grid_.ys[j], z};
  }

  void addCell(std::size_t i, std::size_t j, PlateTriangles& triangles) const {
    if (open_.contains({i, j})) return;
    const double top = topOf(i, j);
    triangles.add(at(i, j, top), at(i + 1, j, top), at(i + 1, j + 1, top), at(i, j + 1, top));
    triangles.add(at(i, j, 0), at(i, j + 1, 0), at(i + 1, j + 1, 0), at(i + 1, j, 0));
    if (i + 2 < grid_.xs.size()) addStep(i, j, i + 1, j, triangles);
    if (j + 2 < grid_.ys.size()) addStep(i, j, i, j + 1, triangles);
  }

  /// The wall between a cell and its next in x or y, if one is engraved.
  void addStep(std::size_t i, std::size_t j, std::size_t nextI, std::size_t nextJ,
               PlateTriangles& triangles) const {
    const double here = topOf(i, j), there = topOf(nextI, nextJ);
    if (here == there) return;
    const double low = std::min(here, there), high = std::max(here, there);
    // Along the shared edge, so that the next cell is to the right.
    const bool inX = nextI > i;
    const std::size_t i0 = inX ? nextI : i + 1, i1 = inX ? nextI : i;
    const std::size_t j0 = inX ? j : nextJ, j1 = inX ? j + 1 : nextJ;
    const Vector3d a = at(i0, j0, low), b = at(i1, j1, low);
    const Vector3d c = at(i1, j1, high), d = at(i0, j0, high);
    if (here > there) {
      triangles.add(a, b, c, d);
    } else {
      triangles.add(b, a, d, c);
    }
  }

  void addEdges(PlateTriangles& triangles) const {
    PlateOpening all;
    all.toX = grid_.xs.size() - 1;
    all.toY = grid_.ys.size() - 1;
    const FlatRing rim = rimOf(grid_, all);
    addBand(rim, 0, rim, grid_.thicknessMm, true, triangles);
  }

  const PlateGrid& grid_;
  std::set<std::pair<std::size_t, std::size_t>> open_;
};

}  // namespace

TriangleMesh meshOf(const PlateGrid& grid) {
  PlateTriangles triangles;
  PlateCells(grid).addTo(triangles);
  for (const PlateOpening& opening : grid.openings) addOpening(grid, opening, triangles);
  return triangles.welded();
}

TriangleMesh loftOf(const std::vector<LoftRing>& rings) {
  PlateTriangles triangles;
  for (std::size_t r = 0; r + 1 < rings.size(); ++r) {
    addBand(rings[r].corners, rings[r].z, rings[r + 1].corners, rings[r + 1].z, true, triangles);
  }
  const LoftRing &low = rings.front(), &high = rings.back();
  for (std::size_t i = 0; i < low.corners.size(); ++i) {
    const std::size_t next = (i + 1) % low.corners.size();
    triangles.add(raised(low.corners[next], low.z), raised(low.corners[i], low.z), {0, 0, low.z});
    triangles.add(raised(high.corners[i], high.z), raised(high.corners[next], high.z),
                  {0, 0, high.z});
  }
  return triangles.welded();
}

}  // namespace swingroom
