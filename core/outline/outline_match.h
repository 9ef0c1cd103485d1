#pragma once

#include <algorithm>
#include <optional>

#include "core/outline/coverage.h"

namespace swingroom {

/// The farthest that one outline is from another.
struct OutlineDeviation {
  double mm = 0;
  Eigen::Vector2d from = Eigen::Vector2d::Zero();  ///< On the one outline.
  Eigen::Vector2d to = Eigen::Vector2d::Zero();    ///< The nearest place on the other.
};

/// Two shapes on one grid, compared.
struct OutlineMatch {
  double cellMm = 0;  ///< Deviations hold to within two of these, areas to half of one all along.
  double firstMm2 = 0, secondMm2 = 0, bothMm2 = 0;
  /// From the first's outline to the second's, and the other way; none: one has no outline.
  std::optional<OutlineDeviation> firstToSecond, secondToFirst;

  double onlyFirstMm2() const { return firstMm2 - bothMm2; }
  double onlySecondMm2() const { return secondMm2 - bothMm2; }
  /// Of the area of either, how much is covered by both, 0 to 1.
  double share() const {
    const double either = firstMm2 + secondMm2 - bothMm2;
    return either > 0 ? bothMm2 / either : 0;
  }
  /// The greater of both: the Hausdorff distance of the outlines.
  double largestMm() const {
    return std::max(firstToSecond ? firstToSecond->mm : 0, secondToFirst ? secondToFirst->mm : 0);
  }
};

/// Holes count: their rims are outlines too. Distances are exact between the middles of the cells
/// along the outlines (Felzenszwalb and Huttenlocher, "Distance transforms of sampled functions",
/// Theory of Computing 8, 2012).
/// @throws std::invalid_argument if the grids differ.
OutlineMatch matchOutlines(const Coverage& first, const Coverage& second);

}  // namespace swingroom
