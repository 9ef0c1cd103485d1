#include "core/mesh/mass_properties.h"

namespace swingroom {

MassProperties massProperties(const TriangleMesh& mesh) {
  MassProperties result;
  if (mesh.triangles.empty()) return result;
  // Tetrahedra from a point near the solid, not from the frame's origin: a part that stands far
  // away would lose digits.
  const Eigen::Vector3d apex = boundsOf(mesh).center();
  double sixVolumes = 0;
  Eigen::Vector3d firstMoment = Eigen::Vector3d::Zero();   // 24 times the integral of p
  Eigen::Matrix3d secondMoment = Eigen::Matrix3d::Zero();  // 120 times the integral of p p^T
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Eigen::Vector3d a = mesh.corner(t, 0) - apex;
    const Eigen::Vector3d b = mesh.corner(t, 1) - apex;
    const Eigen::Vector3d c = mesh.corner(t, 2) - apex;
    const double det = a.dot(b.cross(c));
    const Eigen::Vector3d sum = a + b + c;
    sixVolumes += det;
    firstMoment += det * sum;
    secondMoment +=
        det * (sum * sum.transpose() + a * a.transpose() + b * b.transpose() + c * c.transpose());
  }
  result.volumeMm3 = sixVolumes / 6;
  if (result.volumeMm3 == 0) return result;
  const Eigen::Vector3d p = firstMoment / (24 * result.volumeMm3);
  const Eigen::Matrix3d central = secondMoment / 120 - result.volumeMm3 * p * p.transpose();
  result.centroid = apex + p;
  result.inertia = central.trace() * Eigen::Matrix3d::Identity() - central;
  return result;
}

}  // namespace swingroom
