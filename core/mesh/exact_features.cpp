#include "core/mesh/exact_features.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector3d;

// Far above what fits are off, far below what makes two pins of one.
constexpr double kSameFeatureMm = 0.02;

double distanceToAxis(const Vector3d& p, const CylinderFeature& cylinder) {
  return (p - cylinder.through).cross(cylinder.along).norm();
}

bool isSame(const CylinderFeature& found, const CylinderFeature& exact) {
  if (found.outward != exact.outward ||
      std::abs(found.radiusMm - exact.radiusMm) > kSameFeatureMm) {
    return false;
  }
  double low = 1e300, high = -1e300;
  for (const double at : {found.fromMm, found.toMm}) {
    const Vector3d end = found.through + at * found.along;
    if (distanceToAxis(end, exact) > kSameFeatureMm) return false;
    const double along = exact.along.dot(end - exact.through);
    low = std::min(low, along);
    high = std::max(high, along);
  }
  return low < exact.toMm && high > exact.fromMm;
}

bool isSame(const BallFeature& found, const BallFeature& exact) {
  return found.outward == exact.outward &&
         std::abs(found.radiusMm - exact.radiusMm) <= kSameFeatureMm &&
         (found.centre - exact.centre).norm() <= kSameFeatureMm;
}

template <typename Feature>
std::vector<Feature> withExactOnes(const std::vector<Feature>& found,
                                   const std::vector<Feature>& exact) {
  std::vector<Feature> result;
  std::vector<bool> taken(exact.size(), false);
  for (const Feature& feature : found) {
    const auto same = std::find_if(exact.begin(), exact.end(),
                                   [&](const Feature& other) { return isSame(feature, other); });
    if (same == exact.end()) {
      result.push_back(feature);
      continue;
    }
    const auto index = static_cast<std::size_t>(same - exact.begin());
    if (!taken[index]) result.push_back(*same);
    taken[index] = true;
  }
  return result;
}

}  // namespace

Features transformed(const Features& features, const Eigen::Affine3d& X) {
  const double scale = std::cbrt(std::abs(X.linear().determinant()));
  Features moved = features;
  for (CylinderFeature& cylinder : moved.cylinders) {
    cylinder.through = X * cylinder.through;
    cylinder.along = (X.linear() * cylinder.along).normalized();
    for (double* length :
         {&cylinder.radiusMm, &cylinder.fromMm, &cylinder.toMm, &cylinder.residualMm}) {
      *length *= scale;
    }
  }
  for (BallFeature& ball : moved.balls) {
    ball.centre = X * ball.centre;
    ball.radiusMm *= scale;
    ball.residualMm *= scale;
  }
  return moved;
}

Features withExact(const Features& found, const Features& exact) {
  return {withExactOnes(found.cylinders, exact.cylinders), withExactOnes(found.balls, exact.balls)};
}

}  // namespace swingroom
