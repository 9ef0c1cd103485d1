#pragma once

#include <Eigen/Core>
#include <cmath>
#include <cstdint>

namespace swingroom {

/// Points on a grid of 2^-20 mm (a millionth), up to about a kilometre, so that the side on which a point lies of a
/// plane through three others can be told without rounding.
using GridPoint = Eigen::Matrix<std::int64_t, 3, 1>;

constexpr double kGridSteps = 1 << 20;  ///< A mm.

inline GridPoint gridPointOf(const Eigen::Vector3d& p) {
  return {std::llround(p.x() * kGridSteps), std::llround(p.y() * kGridSteps), std::llround(p.z() * kGridSteps)};
}
inline Eigen::Vector3d inMm(const GridPoint& p) { return p.cast<double>() / kGridSteps; }

/// Six times the signed volume of the tetrahedron p q r s in steps cubed, its sign exact; 0 only if they are in one
/// plane. Positive if p, q, r turn counter-clockwise seen from s.
inline double orientation(const GridPoint& p, const GridPoint& q, const GridPoint& r, const GridPoint& s) {
  const GridPoint u = q - p, v = r - p, w = s - p;
  const Eigen::Vector3d U = u.cast<double>(), V = v.cast<double>(), W = w.cast<double>();
  const double x = V[1] * W[2] - V[2] * W[1], y = V[2] * W[0] - V[0] * W[2], z = V[0] * W[1] - V[1] * W[0];
  const double rounded = U[0] * x + U[1] * y + U[2] * z;
  // No sum has more than eight roundings of terms below the product of the lengths.
  if (std::abs(rounded) > 4e-15 * U.norm() * V.norm() * W.norm()) return rounded;
  using Wide = __int128;
  const Wide X = Wide{v[1]} * w[2] - Wide{v[2]} * w[1], Y = Wide{v[2]} * w[0] - Wide{v[0]} * w[2],
             Z = Wide{v[0]} * w[1] - Wide{v[1]} * w[0];
  return static_cast<double>(u[0] * X + u[1] * Y + u[2] * Z);
}

}  // namespace swingroom
