#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// One connected piece of surface (triangles that share edges).
struct Shell {
  std::vector<std::uint32_t> triangles;  ///< Ascending. A triangle with two equal corners is in no shell.
  /// Every edge is passed as often one way as the other, so that inside and outside are defined.
  bool closed = false;
  /// Signed; negative: the faces look inwards. A cavity's shell is rightly so, a lone shell is not.
  /// 0 for an open shell.
  double volumeMm3 = 0;
};

/// What is wrong, or unusual, in a mesh. Expects welded vertices.
struct MeshHealth {
  std::size_t openEdges = 0;          ///< Edges with one triangle.
  std::size_t nonManifoldEdges = 0;   ///< Edges with three triangles or more.
  std::size_t zeroAreaTriangles = 0;
  std::size_t repeatedTriangles = 0;  ///< Same three corners as an earlier one, in any order.
  std::size_t insideOutShells = 0;    ///< Closed, faces inwards, and not the wall of a cavity.
  std::vector<Shell> shells;
  double volumeMm3 = 0;               ///< Of the closed shells, signed.

  /// There are shells and all are closed: inside and outside are defined for the whole part.
  bool closed() const;
};

/// The shells alone, in the order of their first triangles.
/// @throws std::invalid_argument if a triangle names a vertex that is not there.
std::vector<Shell> shellsOf(const TriangleMesh& mesh);

/// @throws std::invalid_argument if a triangle names a vertex that is not there.
MeshHealth examine(const TriangleMesh& mesh);

/// One sentence each, empty for a sound mesh: what was found and what cannot be promised for it.
/// Says too when the size makes another unit than mm likely (a largest extent under 1 mm or above 2 m).
std::vector<std::string> healthNotes(const TriangleMesh& mesh, const MeshHealth& health);

}  // namespace swingroom
