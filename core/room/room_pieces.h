#pragma once

#include <cstdint>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// One flat piece of a part's surface, in the part's frame P.
struct SurfacePiece {
  TriangleCorners corners_P;
  std::uint32_t triangle = 0;  ///< Of the part's mesh.
  bool inZone = false;
};

/// The part's surface in small pieces: cut at the joint zones that it shares with other parts, large
/// triangles split. In the order of the mesh's triangles; those without area are left out.
/// @param pieceMm  Longest edge of a piece; 0: a sixtieth of the part's size.
std::vector<SurfacePiece> piecesOf(const Assembly& assembly, PartId part, double pieceMm);

/// The pieces that are judged, those outside the zones, with their tree.
struct JudgedPieces {
  explicit JudgedPieces(const std::vector<SurfacePiece>& all);

  BoundingTree tree;                  ///< Its triangles are the pieces.
  std::vector<std::uint32_t> places;  ///< By the tree's order: which of all pieces it is.
};

}  // namespace swingroom
