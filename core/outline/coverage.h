#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/base/standard_view.h"

namespace swingroom {

/// Square cells in a view: mm to the right and up.
struct CoverageGrid {
  Eigen::Vector2d corner = Eigen::Vector2d::Zero();  ///< Of the lower left cell.
  double cellMm = 1;
  int columns = 0, rows = 0;

  Eigen::Vector2d middleOf(int column, int row) const {
    return corner + cellMm * Eigen::Vector2d(column + 0.5, row + 0.5);
  }
  bool operator==(const CoverageGrid&) const = default;
};

/// Cells of at most `mostCells` along the longer side that hold `box`, with two to spare all round.
CoverageGrid gridOver(const Eigen::AlignedBox2d& box, int mostCells);

/// Which cells of a grid are covered: those whose middle is.
struct Coverage {
  CoverageGrid grid;
  std::vector<std::uint8_t> inside;  ///< 0 or 1, row by row from below.

  bool at(int column, int row) const {
    return column >= 0 && row >= 0 && column < grid.columns && row < grid.rows &&
           inside[static_cast<std::size_t>(row) * static_cast<std::size_t>(grid.columns) +
                  static_cast<std::size_t>(column)] != 0;
  }
  double areaMm2() const;
};

/// A figure's shadow in parallel light along a view: the union of its parts, meshes open or not.
class Silhouette {
 public:
  /// All parts with a mesh as they stand; some may be left out.
  /// @param X_WPs  World pose of every part, by PartId.
  Silhouette(const Assembly& assembly, const std::vector<Pose>& X_WPs, const ViewAxes& axes);
  /// Triangles of one mesh in the world.
  Silhouette(const TriangleMesh& mesh_W, const ViewAxes& axes);

  const Eigen::AlignedBox2d& box() const { return box_; }  ///< Empty: there is nothing.
  /// Exact at the middles of cells, up to rounding.
  Coverage on(const CoverageGrid& grid) const;

 private:
  void add(const TriangleMesh& mesh, const Pose& X_WP, const ViewAxes& axes);

  std::vector<std::array<Eigen::Vector2d, 3>> triangles_;
  Eigen::AlignedBox2d box_;
};

/// A line between the middles of cells' sides: stretches of the outline, inside on the left. Lies
/// within half a cell of the edge of what is covered.
using OutlineStretch = std::array<Eigen::Vector2d, 2>;
std::vector<OutlineStretch> outlineOf(const Coverage& coverage);

}  // namespace swingroom
