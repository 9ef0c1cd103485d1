#include "core/tree/mirror_image.h"

#include <algorithm>
#include <stdexcept>

#include "core/tree/point_query.h"

namespace swingroom {

bool isOwnMirrorImage(const TriangleMesh& mesh, const Eigen::Vector3d& through,
                      const Eigen::Vector3d& normal, double withinMm) {
  if (!(normal.norm() > 0)) throw std::invalid_argument("isOwnMirrorImage: a normal of length 0");
  if (mesh.triangles.empty()) return true;
  const Eigen::Vector3d n = normal.normalized();
  // The boxes say no for nearly everything before a tree is built.
  const Eigen::AlignedBox3d box = boundsOf(mesh);
  if (std::abs(2 * n.dot(box.center() - through)) > box.diagonal().norm() + withinMm) return false;
  const BoundingTree tree(mesh);
  const auto isOnSurface = [&](const Eigen::Vector3d& p) {
    const Eigen::Vector3d image = p - 2 * n.dot(p - through) * n;
    PointHints hints;
    hints.withinMm = withinMm * 2;
    hints.enoughMm = withinMm;
    const auto nearest = closestPoint(tree, image, hints);
    return nearest && nearest->distanceMm <= withinMm;
  };
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto &a = mesh.corner(t, 0), &b = mesh.corner(t, 1), &c = mesh.corner(t, 2);
    for (const Eigen::Vector3d& p :
         {a, b, c, Eigen::Vector3d((a + b) / 2), Eigen::Vector3d((b + c) / 2),
          Eigen::Vector3d((c + a) / 2), Eigen::Vector3d((a + b + c) / 3)}) {
      if (!isOnSurface(p)) return false;
    }
  }
  return true;
}

}  // namespace swingroom
