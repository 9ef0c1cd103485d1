#include "core/mesh/closest_points.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kOnTriangle = 1e-12;  ///< Of the lengths involved.

double clampedShare(double numerator, double denominator) {
  return denominator > 0 ? std::clamp(numerator / denominator, 0.0, 1.0) : 0.0;
}

/// A triangle without area is what its edges are.
Vector3d closestOnFlattened(const Vector3d& p, const TriangleCorners& t) {
  Vector3d best = t[0];
  for (std::size_t i = 0; i < 3; ++i) {
    const Vector3d along = t[(i + 1) % 3] - t[i];
    const Vector3d q = t[i] + along * clampedShare(along.dot(p - t[i]), along.squaredNorm());
    if ((q - p).squaredNorm() < (best - p).squaredNorm()) best = q;
  }
  return best;
}

/// Where segment p-q passes through the triangle's inside or rim, if it does; coplanar segments do not.
std::optional<Vector3d> piercingPoint(const Vector3d& p, const Vector3d& q, const TriangleCorners& t,
                                      const Vector3d& normal) {
  const double atP = normal.dot(p - t[0]);
  const double atQ = normal.dot(q - t[0]);
  if ((atP > 0) == (atQ > 0) || atP == atQ) return std::nullopt;
  // Side of the line p-q on which each edge passes: all the same inside.
  const Vector3d direction = q - p;
  const Vector3d a = t[0] - p, b = t[1] - p, c = t[2] - p;
  const double u = direction.dot(c.cross(b));
  const double v = direction.dot(a.cross(c));
  const double w = direction.dot(b.cross(a));
  const bool inside = (u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0);
  if (!inside) return std::nullopt;
  const Vector3d point = p + direction * (atP / (atP - atQ));
  // A sliver's normal is noise and its sides say nothing: believe only a point that is on the triangle.
  const double close = kOnTriangle * (1 + direction.norm() + a.norm() + b.norm() + c.norm());
  if (!((closestPointOnTriangle(point, t) - point).norm() <= close)) return std::nullopt;
  return point;
}

std::optional<Vector3d> crossingPoint(const TriangleCorners& a, const TriangleCorners& b) {
  const Vector3d normal = (b[1] - b[0]).cross(b[2] - b[0]);
  for (int i = 0; i < 3; ++i) {
    if (const auto point = piercingPoint(a[i], a[(i + 1) % 3], b, normal)) return point;
  }
  return std::nullopt;
}

void keepNearer(ClosestPoints& best, const Vector3d& onA, const Vector3d& onB, double& bestSquared) {
  const double squared = (onB - onA).squaredNorm();
  if (squared >= bestSquared) return;
  bestSquared = squared;
  best.onA = onA;
  best.onB = onB;
}

}  // namespace

Vector3d closestPointOnTriangle(const Vector3d& p, const TriangleCorners& t) {
  const Vector3d ab = t[1] - t[0], ac = t[2] - t[0], ap = p - t[0];
  if (ab.cross(ac).squaredNorm() == 0) return closestOnFlattened(p, t);
  const double d1 = ab.dot(ap), d2 = ac.dot(ap);
  if (d1 <= 0 && d2 <= 0) return t[0];
  const Vector3d bp = p - t[1];
  const double d3 = ab.dot(bp), d4 = ac.dot(bp);
  if (d3 >= 0 && d4 <= d3) return t[1];
  const double vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return t[0] + ab * clampedShare(d1, d1 - d3);
  const Vector3d cp = p - t[2];
  const double d5 = ab.dot(cp), d6 = ac.dot(cp);
  if (d6 >= 0 && d5 <= d6) return t[2];
  const double vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return t[0] + ac * clampedShare(d2, d2 - d6);
  const double va = d3 * d6 - d5 * d4;
  if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) {
    return t[1] + (t[2] - t[1]) * clampedShare(d4 - d3, (d4 - d3) + (d5 - d6));
  }
  const double sum = va + vb + vc;
  if (!(sum > 0)) return closestOnFlattened(p, t);
  return t[0] + ab * (vb / sum) + ac * (vc / sum);
}

ClosestPoints closestBetweenSegments(const Vector3d& a0, const Vector3d& a1, const Vector3d& b0,
                                     const Vector3d& b1) {
  const Vector3d d1 = a1 - a0, d2 = b1 - b0, r = a0 - b0;
  const double length1 = d1.squaredNorm(), length2 = d2.squaredNorm();
  double s = 0, t = 0;
  if (length1 > 0 && length2 > 0) {
    const Vector3d normal = d1.cross(d2);
    const double spread = normal.squaredNorm();
    if (spread > 0) s = std::clamp(-r.cross(d2).dot(normal) / spread, 0.0, 1.0);
    t = (d2.dot(r) + s * d1.dot(d2)) / length2;
    if (t < 0 || t > 1) {
      t = std::clamp(t, 0.0, 1.0);
      s = clampedShare(t * d1.dot(d2) - d1.dot(r), length1);
    }
  } else if (length1 > 0) {
    s = clampedShare(-d1.dot(r), length1);
  } else {
    t = clampedShare(d2.dot(r), length2);
  }
  const Vector3d onA = a0 + s * d1, onB = b0 + t * d2;
  return {onA, onB, (onB - onA).norm()};
}

ClosestPoints closestBetweenTriangles(const TriangleCorners& a, const TriangleCorners& b) {
  ClosestPoints best;
  double bestSquared = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) {
      const auto pair = closestBetweenSegments(a[i], a[(i + 1) % 3], b[j], b[(j + 1) % 3]);
      keepNearer(best, pair.onA, pair.onB, bestSquared);
    }
    keepNearer(best, a[i], closestPointOnTriangle(a[i], b), bestSquared);
    keepNearer(best, closestPointOnTriangle(b[i], a), b[i], bestSquared);
  }
  best.distanceMm = std::sqrt(bestSquared);
  if (best.distanceMm > 0) {
    auto common = crossingPoint(a, b);
    if (!common) common = crossingPoint(b, a);
    if (common) best = {*common, *common, 0};
  }
  return best;
}

}  // namespace swingroom
