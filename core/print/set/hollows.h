#pragma once

#include <cstddef>
#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A hollow in which something stays that should come out.
struct Hollow {
  enum class Kind {
    closed,      ///< It has no opening at all: exact.
    narrowNeck,  ///< A ball of the escape hole's size has room in it and cannot leave it: about.
  };
  Kind kind = Kind::closed;
  double volumeMm3 = 0;                  ///< Of a neck's: of what the ball sweeps. About.
  Vector3d middle_P = Vector3d::Zero();  ///< Of its volume, in the part's frame.

  bool operator==(const Hollow&) const = default;
};

/// Closed cavities of the mesh, by its shells, and hollows whose openings are narrower than the
/// hole that lets powder or resin out. The latter on a grid of a sixth of that hole, at the finest
/// that 160 cells along the longest side give; if these are not fine enough (a third of the hole),
/// they are not looked for. Largest first.
std::vector<Hollow> hollowsOf(const TriangleMesh& mesh, double escapeHoleMm);

/// What cups hold of the resin if a part is printed so, hanging from the plate: air and resin shut
/// in between what is printed and the vat's floor. mm3, on a grid of 64 cells along the longest
/// side; holes narrower than a cell are not seen. A cup whose rim lies on the plate is shut by it
/// and counts too.
/// @param R_BP  To the bed, z up from the plate.
/// @param onPlate  The part lies on the plate itself, not on supports.
double trappedVolume(const TriangleMesh& mesh, const Eigen::Matrix3d& R_BP, bool onPlate);

}  // namespace swingroom
