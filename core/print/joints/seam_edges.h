#pragma once

#include <optional>
#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A sharp, convex edge of a surface, looked at as the rim of a panel: one of its faces looks at
/// the other panel over the seam, the other one is the panel's outer face.
struct SeamEdge {
  Vector3d from = Vector3d::Zero(), to = Vector3d::Zero();
  Vector3d across =
      Vector3d::UnitX();               ///< Unit: out of the face in the seam, along the outer face.
  Vector3d outer = Vector3d::UnitZ();  ///< Unit normal of the outer face.

  Vector3d at(double share) const { return from + share * (to - from); }
};

/// Every sharp edge (bent by 35 degrees or more) twice, once for each of its faces as the outer
/// one.
/// @param X_WP  Where the surface stands. @param near_W  Edges that do not reach into it are left
/// out.
std::vector<SeamEdge> seamEdgesOf(const TriangleMesh& mesh, const Pose& X_WP,
                                  const Eigen::AlignedBox3d& near_W);

/// Of a place on a rim, how the other panel's rim lies to it, mm.
struct SeamReading {
  double gapMm = 0;   ///< Along the outer face; below 0: they overlap.
  double stepMm = 0;  ///< Along its normal: the other panel is prouder.
};

/// Rims of one panel, to be asked from the other.
class SeamRims {
 public:
  SeamRims(std::vector<SeamEdge> edges, double reachMm);

  /// The nearest rim within reach whose seam face looks back and whose outer face looks the same
  /// way. None: there is no such rim, or the place is past its end.
  std::optional<SeamReading> readAt(const SeamEdge& edge, const Vector3d& p) const;

  /// Where this panel's rims end, projected onto `edge`: shares of its length.
  std::vector<double> endsAlong(const SeamEdge& edge) const;

 private:
  bool fits(const SeamEdge& edge, const SeamEdge& other) const;

  std::vector<SeamEdge> edges_;
  double reachMm_;
};

}  // namespace swingroom
