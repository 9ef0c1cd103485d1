#include "core/mesh/polygon.h"

namespace swingroom {

CutPolygon cut(const Polygon& polygon, const HalfSpace& space) {
  CutPolygon parts;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Eigen::Vector3d& p = polygon[i];
    const Eigen::Vector3d& q = polygon[(i + 1) % polygon.size()];
    const double atP = space.heightOf(p), atQ = space.heightOf(q);
    if (atP <= 0) parts.inside.push_back(p);
    if (atP >= 0) parts.outside.push_back(p);
    if ((atP < 0 && atQ > 0) || (atP > 0 && atQ < 0)) {
      const Eigen::Vector3d crossing = p + (q - p) * (atP / (atP - atQ));
      parts.inside.push_back(crossing);
      parts.outside.push_back(crossing);
    }
  }
  return parts;
}

}  // namespace swingroom
