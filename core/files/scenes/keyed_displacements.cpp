#include "core/files/scenes/keyed_displacements.h"

#include <Eigen/SVD>

#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

constexpr double kRigidMm = 0.001;
constexpr double kRigidShare = 1e-5;

/// The rigid displacement nearest to what lies between two places of one part.
Pose nearestRigid(const Eigen::Affine3d& X_first, const Eigen::Affine3d& X_now,
                  const Vector3d& centre) {
  const Eigen::Affine3d between = X_now * X_first.inverse();
  const Eigen::JacobiSVD<Eigen::Matrix3d> svd(between.linear(),
                                              Eigen::ComputeFullU | Eigen::ComputeFullV);
  Eigen::Matrix3d U = svd.matrixU();
  if ((U * svd.matrixV().transpose()).determinant() < 0) U.col(2) = -U.col(2);
  Pose D = Pose::Identity();
  D.linear() = U * svd.matrixV().transpose();
  D.translation() = between * centre - D.linear() * centre;
  return D;
}

bool fits(const Pose& D, const Eigen::Affine3d& between, const TriangleMesh& mesh) {
  const double most = std::max(kRigidMm, kRigidShare * boundsOf(mesh).diagonal().norm());
  for (const Vector3d& v : mesh.vertices) {
    if ((D * v - between * v).norm() > most) return false;
  }
  return true;
}

}  // namespace

Outcome<std::vector<std::vector<Pose>>> displacementsAt(const KeyedMotion& motion,
                                                        const GivenParts& parts,
                                                        double mmPerUnit) {
  const Eigen::UniformScaling<double> unit(mmPerUnit);
  std::vector<std::vector<Pose>> all(motion.stations.size() - 1);
  Problems problems;
  for (std::size_t i = 0; i < parts.parts.size(); ++i) {
    const TriangleMesh& mesh = parts.parts[i].mesh.mesh;
    const Eigen::Affine3d X_first = unit * motion.stations.front().X_SPs.at(i);
    const Vector3d centre = boundsOf(mesh).center();
    bool told = false;
    for (std::size_t k = 1; k < motion.stations.size(); ++k) {
      const Eigen::Affine3d X_now = unit * motion.stations[k].X_SPs.at(i);
      const bool still = X_now.matrix() == X_first.matrix();
      all[k - 1].push_back(still ? Pose::Identity() : nearestRigid(X_first, X_now, centre));
      if (told || fits(all[k - 1].back(), X_now * X_first.inverse(), mesh)) continue;
      told = true;
      problems.push_back({parts.source.string() + ", " + parts.parts[i].name,
                          "changes its size or shape between " +
                              secondsText(motion.stations.front().timeS) + " and " +
                              secondsText(motion.stations[k].timeS) + ": parts are rigid",
                          "key its place and its turn only, not its scale"});
    }
  }
  if (!problems.empty()) return problems;
  return all;
}

}  // namespace swingroom
