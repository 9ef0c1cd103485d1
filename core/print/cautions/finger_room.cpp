#include "core/print/cautions/finger_room.h"

#include "core/tree/point_query.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

constexpr double kFingerRoundingMm = 1e-6;

}  // namespace

bool FingerRoom::isOpen(const std::vector<Pose>& X_WPs, const Vector3d& p_W,
                        double radiusMm) const {
  for (std::size_t i = 0; i < X_WPs.size(); ++i) {
    if (!subject_.hasMesh(PartId{i})) continue;
    const PartGeometry& part = *subject_.geometry->at(i);
    const Vector3d p = X_WPs[i].inverse() * p_W;
    PointHints hints;
    hints.withinMm = hints.enoughMm = radiusMm - kFingerRoundingMm;
    if (closestPoint(part.surface->tree, p, hints)) return false;
    if (part.solid.hasInside() && part.solid.contains(p)) return false;
  }
  for (int k = 0; k < 27; ++k) {
    const Vector3d way(k % 3 - 1, k / 3 % 3 - 1, k / 9 - 1);
    if (way.isZero()) continue;
    bool free = true;
    for (std::size_t i = 0; free && i < X_WPs.size(); ++i) {
      if (!subject_.hasMesh(PartId{i})) continue;
      const Pose X_PW = X_WPs[i].inverse();
      free = !firstHit(subject_.geometry->at(i)->surface->tree, X_PW * p_W,
                       X_PW.linear() * way.normalized());
    }
    if (free) return true;
  }
  return false;
}

}  // namespace swingroom
