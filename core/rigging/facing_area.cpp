#include "core/rigging/facing_area.h"

#include "core/motion/surface_samples.h"
#include "core/tree/point_query.h"

namespace swingroom {

double facingArea(const TriangleMesh& a, const BoundingTree& b, const Pose& X_AB, double withinMm) {
  constexpr std::size_t kPoints = 20'000;
  constexpr double kOpposite = -0.9;  // Of two normals that face each other.
  if (b.empty()) return 0;
  const Pose X_BA = X_AB.inverse();
  const Vector3d middle = b.root().centre;
  const double reach = b.root().radius + withinMm;
  PointHints hints;
  hints.withinMm = withinMm;
  double area = 0;
  for (const SurfaceSample& sample : sampledByArea(a, kPoints)) {
    const Vector3d p = X_BA * sample.point;
    if ((p - middle).squaredNorm() > reach * reach) continue;
    const auto nearest = closestPoint(b, p, hints);
    if (!nearest) continue;
    const TriangleCorners& t = b.triangles()[nearest->triangle];
    const Vector3d m = (t[1] - t[0]).cross(t[2] - t[0]).normalized();
    if ((X_BA.linear() * sample.normal).dot(m) < kOpposite) area += sample.areaMm2;
  }
  return area;
}

}  // namespace swingroom
