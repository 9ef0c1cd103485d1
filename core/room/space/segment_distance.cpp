#include "core/room/space/segment_distance.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/ensure.h"
#include "core/mesh/closest_points.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

double squaredToBox(const BoundingTree::Node& node, const Vector3d& middle, const Vector3d& halfWay) {
  const Vector3d off = (node.axes.transpose() * (middle - node.centre)).cwiseAbs();
  const Vector3d reach = node.half + (node.axes.transpose() * halfWay).cwiseAbs();
  return (off - reach).cwiseMax(0.0).squaredNorm();
}

bool crosses(const Vector3d& a, const Vector3d& b, const TriangleCorners& t) {
  const Vector3d d = b - a, p = t[0] - a, q = t[1] - a, r = t[2] - a;
  const Vector3d normal = (t[1] - t[0]).cross(t[2] - t[0]);
  const double atA = -normal.dot(p), atB = normal.dot(b - t[0]);
  if ((atA > 0) == (atB > 0)) return false;
  const double u = d.dot(r.cross(q)), v = d.dot(p.cross(r)), w = d.dot(q.cross(p));
  return (u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0);
}

}  // namespace

double segmentToBox(const BoundingTree::Node& node, const Vector3d& a, const Vector3d& b) {
  return std::sqrt(squaredToBox(node, 0.5 * (a + b), 0.5 * (b - a)));
}

double segmentToTriangle(const Vector3d& a, const Vector3d& b, const TriangleCorners& t) {
  const double atA = (closestPointOnTriangle(a, t) - a).norm();
  if (a == b) return atA;
  if (crosses(a, b, t)) return 0;
  double least = std::min(atA, (closestPointOnTriangle(b, t) - b).norm());
  for (std::size_t i = 0; i < 3; ++i) {
    least = std::min(least, closestBetweenSegments(a, b, t[i], t[(i + 1) % 3]).distanceMm);
  }
  return least;
}

TriangleBound::TriangleBound(const TriangleCorners& t) : centre((t[0] + t[1] + t[2]) / 3) {
  normal = (t[1] - t[0]).cross(t[2] - t[0]).normalized();  // Zero for a triangle without area: it then says nothing.
  height = normal.dot(t[0]);
  for (const Vector3d& corner : t) radius = std::max(radius, (corner - centre).norm());
}

bool TriangleBound::isFarther(const Vector3d& a, const Vector3d& b, double mm) const {
  const double reach = mm + radius + 0.5 * (b - a).norm();
  if ((0.5 * (a + b) - centre).squaredNorm() >= reach * reach) return true;
  const double atA = normal.dot(a) - height, atB = normal.dot(b) - height;
  return (atA >= mm && atB >= mm) || (atA <= -mm && atB <= -mm);
}

double segmentToSurface(const BoundingTree& tree, std::span<const std::uint32_t> nodes, const Vector3d& a,
                        const Vector3d& b, double belowMm) {
  if (!(belowMm > 0)) return belowMm;
  const Vector3d middle = 0.5 * (a + b), halfWay = 0.5 * (b - a);
  const double halfLength = halfWay.norm();
  double best = belowMm;
  struct Waiting {
    std::uint32_t node;
    double squaredMm;
  };
  std::array<Waiting, 128> stack;
  for (const std::uint32_t start : nodes) {
    std::size_t waiting = 0;
    stack[waiting++] = {start, squaredToBox(tree.nodes()[start], middle, halfWay)};
    while (waiting > 0) {
      const Waiting top = stack[--waiting];
      if (top.squaredMm >= best * best) continue;
      const auto& node = tree.nodes()[top.node];
      if (!node.isLeaf()) {
        SWINGROOM_ENSURE(waiting + 2 <= stack.size());
        Waiting left{node.first, squaredToBox(tree.nodes()[node.first], middle, halfWay)};
        Waiting right{node.first + 1, squaredToBox(tree.nodes()[node.first + 1], middle, halfWay)};
        if (left.squaredMm < right.squaredMm) std::swap(left, right);
        stack[waiting++] = left;
        stack[waiting++] = right;
        continue;
      }
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
        const TriangleCorners& t = tree.triangles()[i];
        const double atMiddle = (closestPointOnTriangle(middle, t) - middle).norm();
        if (atMiddle - halfLength >= best) continue;
        best = std::min(best, halfLength > 0 ? segmentToTriangle(a, b, t) : atMiddle);
      }
    }
    if (best <= 0) return 0;
  }
  return best;
}

}  // namespace swingroom
