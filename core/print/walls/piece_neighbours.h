#pragma once

#include <cstdint>
#include <vector>

#include "core/mesh/surface_topology.h"
#include "core/print/walls/wall_figures.h"

namespace swingroom {

/// Which pieces of a surface lie beside each other, or across the material.
struct PieceNeighbours {
  PieceNeighbours(const std::vector<WallPlace>& places, unsigned threads);

  /// Those that share a corner; the piece itself too.
  template <typename Visit>
  void eachBeside(std::uint32_t i, const Visit& visit) const {
    for (const std::uint32_t v : corners[i])
      for (std::uint32_t k = firstAt[v]; k < firstAt[v + 1]; ++k) visit(at[k]);
  }
  template <typename Visit>
  void each(std::uint32_t i, const Visit& visit) const {
    eachBeside(i, visit);
    if (other[i] != SurfaceTopology::kNone) visit(other[i]);
    for (std::uint32_t k = firstFrom[i]; k < firstFrom[i + 1]; ++k) visit(from[k]);
  }

  std::vector<Triangle> corners;
  std::vector<std::uint32_t> firstAt, at;
  std::vector<std::uint32_t> other, firstFrom, from;  ///< Across: to whom, and from whom.

 private:
  void findOthers(const std::vector<WallPlace>& places, const TriangleMesh& mesh, unsigned threads);
};

}  // namespace swingroom
