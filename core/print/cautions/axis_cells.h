#pragma once

#include <array>
#include <vector>

#include "core/print/cautions/outer_points.h"

namespace swingroom {

/// Rounding of all that is asked of directions, mm.
constexpr double kAxisWithinMm = 1e-9;

/// A patch of axis directions: a triangle on the sphere.
struct AxisCell {
  std::array<Vector3d, 3> corners;

  Vector3d middle() const { return (corners[0] + corners[1] + corners[2]).normalized(); }
  /// No direction of it is farther from `middle`.
  double radiusRad() const;
  std::array<AxisCell, 4> quartered() const;
};

/// Eight cells.
std::vector<AxisCell> wholeSphere();

/// Two unit directions square to `up`, the three right-handed.
std::array<Vector3d, 2> squareTo(const Vector3d& up);

/// Round the points as seen along the axis that is square to both.
Circle shadowCircle(const std::vector<Vector3d>& points, const std::array<Vector3d, 2>& across);

/// Whether no axis of a cell lets the part through a hole of one radius.
class HoleBound {
 public:
  HoleBound(const OuterPoints& outer, double radiusMm);

  /// Two points that are too far apart across each axis of the cell, or a circle that is too large
  /// even if the shadow moves by all it can.
  bool isTooWide(const AxisCell& cell);

 private:
  struct WideSpan {
    Vector3d span;
    double sine, cosine;  ///< Of the least angle to an axis at which it is too wide.
  };
  const OuterPoints& outer_;
  double radiusMm_;
  std::vector<WideSpan> spans_;
  std::size_t last_ = 0;
};

}  // namespace swingroom
