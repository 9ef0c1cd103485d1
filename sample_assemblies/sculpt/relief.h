#pragma once

#include <Eigen/Geometry>
#include <cstdint>
#include <functional>
#include <vector>

/// Heights of a relief at a place, mm: outward positive. All smooth, the same on every machine.
namespace swingroom::samples::relief {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// 0 up to `from`, 1 beyond `to`, an S between; `from` may be larger than `to`.
double rise(double from, double to, double x);

/// 1 between `low` and `high`, falling to 0 over `fade` inside both ends.
double within(double x, double low, double high, double fade);

/// Between -1 and 1, without steps; features about 1 mm across. Another seed, another pattern.
double noise(const Vector3d& p, std::uint32_t seed);

/// Between 0 and 1 for a cell of a pattern.
double chance(long a, long b, std::uint32_t seed);

struct Boards {
  double widthMm = 3;
  double lengthMm = 14;  ///< Of one board; ends of neighbours are staggered.
  double gapMm = 0.5;    ///< Of the groove, at its mouth.
  double deepMm = 0.34;
  double crownMm = 0.07;  ///< How much lower a board is at its edges than in its middle.
  double wearMm = 0.07;   ///< Uneven heights, waves and knocked corners.
  double nailMm = 0.0;    ///< Height of the nail heads at the boards' ends; 0: none.
  std::uint32_t seed = 1;
};

/// Boards along `u`, side by side along `v`: at most 0 but for nails.
double boards(double u, double v, const Boards& boards);

/// A flat round head (a paraboloid) on a foot of `radius`.
double dome(const Vector2d& off, double radius, double height);

/// A row of domes `pitch` apart along u about `v` = 0, counted from u = 0.
double rivets(double u, double v, double pitch, double radius, double height);

/// A bead along u of half width `half`, round on top.
double bead(double v, double half, double height);

/// The strands of a twisted rope: between 0 in the grooves and 1 on a strand. `along` mm of the
/// rope, `round` its angle in radians.
double strands(double along, double round, double layMm, int count);

/// A rope laid on a surface along u: its height.
double rope(double u, double v, double half, double height);

}  // namespace swingroom::samples::relief
