#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A part in cubes of one size, by whether their middles are in its material; one empty layer all
/// round.
struct SolidGrid {
  std::array<std::size_t, 3> counts{0, 0, 0};
  double cellMm = 0;
  Vector3d low_B = Vector3d::Zero();  ///< Corner of the first cell.
  std::vector<char> full;             ///< x fastest.

  std::size_t at(std::size_t x, std::size_t y, std::size_t z) const {
    return (z * counts[1] + y) * counts[0] + x;
  }
  Vector3d middleOf(std::size_t cell) const;
  /// The cells that share a face with it; fewer at the rim.
  void forNeighbours(std::size_t cell, const auto& use) const {
    const std::size_t x = cell % counts[0], y = cell / counts[0] % counts[1],
                      z = cell / counts[0] / counts[1];
    if (x > 0) use(cell - 1);
    if (x + 1 < counts[0]) use(cell + 1);
    if (y > 0) use(cell - counts[0]);
    if (y + 1 < counts[1]) use(cell + counts[0]);
    if (z > 0) use(cell - counts[0] * counts[1]);
    if (z + 1 < counts[2]) use(cell + counts[0] * counts[1]);
  }
};

/// Inside is where the surface winds round at least once; meaningless for open surfaces.
SolidGrid solidGrid(const TriangleMesh& mesh, const Eigen::Matrix3d& R_BP, double cellMm);

}  // namespace swingroom
