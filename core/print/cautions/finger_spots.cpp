#include "core/print/cautions/finger_spots.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "core/motion/surface_samples.h"

namespace swingroom {

std::vector<FingerSpot> fingerSpots(const TriangleMesh& mesh, double spacingMm, std::size_t most) {
  std::vector<FingerSpot> spots;
  std::map<std::array<int, 4>, std::size_t> taken;
  const Vector3d centre = boundsOf(mesh).center();
  const auto add = [&](const Vector3d& point, const Vector3d& normal) {
    Eigen::Index facing = 0;
    normal.cwiseAbs().maxCoeff(&facing);
    const int way = 2 * static_cast<int>(facing) + (normal(facing) < 0 ? 1 : 0);
    std::array<int, 4> cell{0, 0, 0, way};
    for (int i = 0; i < 3; ++i) {
      cell[static_cast<std::size_t>(i)] = static_cast<int>(std::floor(point(i) / spacingMm));
    }
    const auto [at, isNew] = taken.try_emplace(cell, spots.size());
    if (isNew) {
      spots.push_back({point, normal});
    } else if (FingerSpot& held = spots[at->second];
               (point - centre).squaredNorm() > (held.point - centre).squaredNorm()) {
      held = {point, normal};  // The outer one: openings are widest at rims.
    }
  };
  double areaMm2 = 0;
  for (const Triangle& triangle : mesh.triangles) {
    const Vector3d &a = mesh.vertices[triangle[0]], &b = mesh.vertices[triangle[1]],
                   &c = mesh.vertices[triangle[2]];
    const Vector3d across = (b - a).cross(c - a);
    if (across.norm() < 1e-12) continue;
    areaMm2 += across.norm() / 2;
    for (const Vector3d* corner : {&a, &b, &c}) add(*corner, across.normalized());
  }
  const auto samples = static_cast<std::size_t>(areaMm2 / (spacingMm * spacingMm));
  for (const SurfaceSample& sample : sampledByArea(mesh, std::min(most, samples + 8))) {
    add(sample.point, sample.normal);
  }
  if (spots.size() <= most) return spots;
  std::vector<FingerSpot> some;  // Evenly out of all.
  for (std::size_t i = 0; i < most; ++i) some.push_back(spots[i * spots.size() / most]);
  return some;
}

}  // namespace swingroom
