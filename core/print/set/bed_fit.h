#pragma once

#include <array>
#include <cstddef>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

enum class BedVerdict {
  fits,        ///< In an orientation that was found.
  doesNotFit,  ///< In none: proven.
  notTold,     ///< None was found, and none of all could be ruled out.
};

/// Whether a part goes into a bed's box, turned in any way.
struct BedFit {
  BedVerdict verdict = BedVerdict::notTold;
  /// From the part's frame to one along the bed's edges: where it fits, or is least too large.
  Eigen::Matrix3d R_BP = Eigen::Matrix3d::Identity();
  Vector3d sizeMm = Vector3d::Zero();  ///< Its box then.
  /// By how much its box is too large along the worst edge, in the best of all orientations: it
  /// lies between the two. At or below 0: it fits.
  double overLowerMm = 0, overUpperMm = 0;

  bool operator==(const BedFit&) const = default;
};

/// Size of the mesh's box after the turn. Zero for a mesh without vertices.
Vector3d sizeOf(const TriangleMesh& mesh, const Eigen::Matrix3d& R_BP);

/// Branch and bound over all turns. A fit is exact for the mesh as it is (up to rounding); that
/// there is none is proven by the distances of its outermost corners. Stops when both bounds are
/// within 0.1 mm of each other, when it is known that nothing fits and
/// they are within a hundredth of the part's size, or `budget` turns were looked at.
BedFit bedFit(const TriangleMesh& mesh, const std::array<double, 3>& bedMm,
              std::size_t budget = 100'000);

}  // namespace swingroom
