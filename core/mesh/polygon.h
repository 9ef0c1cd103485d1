#pragma once

#include <Eigen/Core>
#include <vector>

namespace swingroom {

/// Corners of a flat convex polygon, in order, mm.
using Polygon = std::vector<Eigen::Vector3d>;

/// Inside: normal.dot(x) <= offset.
struct HalfSpace {
  Eigen::Vector3d normal;
  double offset = 0;

  double heightOf(const Eigen::Vector3d& x) const { return normal.dot(x) - offset; }
};

struct CutPolygon {
  Polygon inside;   ///< Fewer than three corners: nothing is inside.
  Polygon outside;  ///< Likewise.
};

/// Both sides of `polygon` at the plane that bounds `space`.
CutPolygon cut(const Polygon& polygon, const HalfSpace& space);

}  // namespace swingroom
