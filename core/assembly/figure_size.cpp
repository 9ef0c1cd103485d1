#include "core/assembly/figure_size.h"

namespace swingroom {

FigureSize figureSize(const Assembly& assembly, const Configuration& standing, const Vector3d& up_W,
                      const Vector3d& front_W) {
  Eigen::Matrix3d R_VW;  // Rows: to the side, to the front, up.
  R_VW.row(2) = up_W.normalized().transpose();
  R_VW.row(0) = front_W.cross(up_W).normalized().transpose();
  R_VW.row(1) = R_VW.row(2).cross(R_VW.row(0));
  const std::vector<Pose> X_WPs = posesOf(assembly, standing);
  Eigen::AlignedBox3d box;
  for (std::size_t p = 0; p < X_WPs.size(); ++p) {
    const Part& part = assembly.parts()[p];
    if (!part.mesh) continue;
    const Eigen::Affine3d X_VP = R_VW * Eigen::Affine3d(X_WPs[p]);
    for (const Vector3d& p_P : part.mesh->vertices) box.extend(X_VP * p_P);
  }
  if (box.isEmpty()) return {};
  return {box.sizes().x(), box.sizes().y(), box.sizes().z()};
}

}  // namespace swingroom
