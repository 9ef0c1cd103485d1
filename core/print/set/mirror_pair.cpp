#include "core/print/set/mirror_pair.h"

#include <Eigen/SVD>
#include <algorithm>

namespace swingroom {

bool isMirrorImage(const TriangleMesh& a, const TriangleMesh& b) {
  const std::size_t count = a.vertices.size();
  if (count < 4 || b.vertices.size() != count || a.triangles.size() != b.triangles.size()) {
    return false;
  }
  Eigen::Vector3d middleA = Eigen::Vector3d::Zero(), middleB = middleA;
  for (std::size_t v = 0; v < count; ++v) {
    middleA += a.vertices[v] / static_cast<double>(count);
    middleB += b.vertices[v] / static_cast<double>(count);
  }
  Eigen::Matrix3d both = Eigen::Matrix3d::Zero();
  for (std::size_t v = 0; v < count; ++v) {
    both += (a.vertices[v] - middleA) * (b.vertices[v] - middleB).transpose();
  }
  // The best turn or reflection (Kabsch, Acta Cryst. A32, 1976), forced to reflect.
  const Eigen::JacobiSVD<Eigen::Matrix3d> svd(both, Eigen::ComputeFullU | Eigen::ComputeFullV);
  Eigen::Matrix3d sign = Eigen::Matrix3d::Identity();
  const Eigen::Matrix3d plain = svd.matrixV() * svd.matrixU().transpose();
  if (plain.determinant() > 0) sign(2, 2) = -1;
  const Eigen::Matrix3d best = svd.matrixV() * sign * svd.matrixU().transpose();
  constexpr double kAlikeMm = 1e-4;
  for (std::size_t v = 0; v < count; ++v) {
    const Eigen::Vector3d off = best * (a.vertices[v] - middleA) - (b.vertices[v] - middleB);
    if (off.norm() > kAlikeMm) return false;
  }
  return true;
}

}  // namespace swingroom
