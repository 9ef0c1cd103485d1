#include "core/print/cautions/axis_cells.h"

#include <algorithm>
#include <cmath>

namespace swingroom {

double AxisCell::radiusRad() const {
  double radius = 0;
  for (const Vector3d& corner : corners) {
    radius = std::max(radius, std::acos(std::clamp(corner.dot(middle()), -1.0, 1.0)));
  }
  return radius;
}

std::array<AxisCell, 4> AxisCell::quartered() const {
  const Vector3d ab = (corners[0] + corners[1]).normalized();
  const Vector3d bc = (corners[1] + corners[2]).normalized();
  const Vector3d ca = (corners[2] + corners[0]).normalized();
  return {AxisCell{{corners[0], ab, ca}}, AxisCell{{ab, corners[1], bc}},
          AxisCell{{ca, bc, corners[2]}}, AxisCell{{ab, bc, ca}}};
}

std::vector<AxisCell> wholeSphere() {
  std::vector<AxisCell> cells;
  for (int i = 0; i < 8; ++i) {
    const Vector3d x = Vector3d::UnitX() * ((i & 1) ? 1 : -1);
    const Vector3d y = Vector3d::UnitY() * ((i & 2) ? 1 : -1);
    const Vector3d z = Vector3d::UnitZ() * ((i & 4) ? 1 : -1);
    cells.push_back({{x, y, z}});
  }
  return cells;
}

/// Two unit directions square to `up`, the three right-handed.
std::array<Vector3d, 2> squareTo(const Vector3d& up) {
  Eigen::Index least = 0;
  up.cwiseAbs().minCoeff(&least);
  const Vector3d x = (Vector3d::Unit(least) - up * up(least)).normalized();
  return {x, up.cross(x)};
}

Circle shadowCircle(const std::vector<Vector3d>& points, const std::array<Vector3d, 2>& across) {
  std::vector<Eigen::Vector2d> shadow;
  for (const Vector3d& p : points) shadow.emplace_back(across[0].dot(p), across[1].dot(p));
  return leastCircle(shadow);
}

HoleBound::HoleBound(const OuterPoints& outer, double radiusMm)
    : outer_(outer), radiusMm_(radiusMm) {
  for (const Vector3d& span : outer.spans) {
    const double sine = (2 * radiusMm + kAxisWithinMm) / span.norm();
    if (sine < 1) spans_.push_back({span, sine, std::sqrt(1 - sine * sine)});
  }
}

bool HoleBound::isTooWide(const AxisCell& cell) {
  const Vector3d axis = cell.middle();
  const double within = cell.radiusRad();
  for (std::size_t i = 0; i < spans_.size() && within < kPi / 2; ++i) {
    // The one that decided the last cell first.
    const WideSpan& wide = spans_[(last_ + i) % spans_.size()];
    // Its angle to the axis is above `within` by more than asin(sine), then so is the sine.
    const double cosine = wide.cosine * std::cos(within) - wide.sine * std::sin(within);
    if (std::abs(axis.dot(wide.span)) >= wide.span.norm() * cosine) continue;
    last_ = (last_ + i) % spans_.size();
    return true;
  }
  const double moved = outer_.reachMm * within;
  if (moved > radiusMm_) return false;
  return shadowCircle(outer_.points, squareTo(axis)).radius - moved > radiusMm_ + kAxisWithinMm;
}

}  // namespace swingroom
