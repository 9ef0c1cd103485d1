#pragma once

#include <optional>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// One surface laid on another.
struct SurfaceFit {
  Pose D = Pose::Identity();  ///< From a to b.
  double residualMm = 0;      ///< As `largestMisfit` has it.
};

/// How far any vertex of one mesh is from the other's surface, `a` moved by `D`, mm. Up to 20 000
/// vertices of each are looked at.
double largestMisfit(const TriangleMesh& a, const TriangleMesh& b, const Pose& D);

/// Lays `a` on `b` as well as it goes, whatever their triangles. Starts from where they stand, from
/// `guess` and from their principal axes, then brings nearest points together, the farthest fifth
/// left out, so that a small change does not pull the rest away.
/// Besl & McKay, IEEE PAMI 14(2), 1992; trimmed: Chetverikov et al., ICPR 2002.
SurfaceFit laidOnEachOther(const TriangleMesh& a, const TriangleMesh& b,
                           const std::optional<Pose>& guess);

}  // namespace swingroom
