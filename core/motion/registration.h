#pragma once

#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// How one part got from where one mesh has it to where another mesh of the same part has it.
struct Registration {
  Pose D = Pose::Identity();  ///< b = D * a.
  double residualMm = 0;      ///< How far the farthest vertex is from where it should be.
  /// Matched corner by corner; otherwise by shape, and `D` is the least turn of those that fit.
  bool inFileOrder = true;
  /// More displacements that fit as well, by rising turn: the part looks the same from several
  /// sides and the order of its triangles does not tell which is which.
  std::vector<Pose> alternatives;
};

/// A part that fits worse than this in two files is not the same part, mm.
constexpr double kSamePartMm = 0.02;

/// Finds the rigid displacement of a part between two meshes of it, in mm. First corner by corner
/// in file order, which is exact to about the rounding of the files; then by the shape alone.
/// @param where Starts the message: the part's file.
/// @returns A Problem if the part is mirrored, or differs in shape by more than `kSamePartMm`, with
/// the size of the difference when both are laid on each other as well as they go.
Outcome<Registration> registerPart(const std::string& where, const TriangleMesh& a,
                                   const TriangleMesh& b);

}  // namespace swingroom
