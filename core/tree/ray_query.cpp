#include "core/tree/ray_query.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector3d;

struct Ray {
  Vector3d origin, direction;
};

/// Distance at which the ray enters the box, 0 from inside; infinite if it misses.
double entryOf(const BoundingTree::Node& node, const Ray& ray) {
  constexpr double kNever = std::numeric_limits<double>::infinity();
  double enter = 0, leave = kNever;
  const double slack = 1e-9 * (1 + node.radius);
  const Vector3d origin = node.axes.transpose() * (ray.origin - node.centre);
  const Vector3d direction = node.axes.transpose() * ray.direction;
  for (int i = 0; i < 3; ++i) {
    const double low = -node.half[i] - slack - origin[i];
    const double high = node.half[i] + slack - origin[i];
    if (direction[i] == 0) {  // 0 times infinity would be no number.
      if (low > 0 || high < 0) return kNever;
      continue;
    }
    enter = std::max(enter, std::min(low / direction[i], high / direction[i]));
    leave = std::min(leave, std::max(low / direction[i], high / direction[i]));
  }
  return enter <= leave ? enter : kNever;
}

/// Slack of the barycentric coordinates, so that no ray slips through between two triangles.
constexpr double kEdgeSlack = 1e-12;

double distanceTo(const TriangleCorners& t, const Ray& ray) {
  constexpr double kNever = std::numeric_limits<double>::infinity();
  const Vector3d e1 = t[1] - t[0], e2 = t[2] - t[0];
  const Vector3d h = ray.direction.cross(e2);
  const double det = e1.dot(h);
  if (det == 0) return kNever;
  const Vector3d s = ray.origin - t[0];
  const double u = s.dot(h) / det;
  if (!(u >= -kEdgeSlack && u <= 1 + kEdgeSlack)) return kNever;
  const Vector3d q = s.cross(e1);
  const double v = ray.direction.dot(q) / det;
  if (!(v >= -kEdgeSlack && u + v <= 1 + kEdgeSlack)) return kNever;
  const double along = e2.dot(q) / det;
  return along >= 0 ? along : kNever;
}

}  // namespace

std::optional<RayHit> firstHit(const BoundingTree& tree, const Vector3d& origin,
                               const Vector3d& direction, double withinMm) {
  if (tree.empty()) return std::nullopt;
  const Ray ray{origin, direction};
  std::optional<RayHit> best;
  double bestMm = withinMm;
  struct Entry {
    std::uint32_t node;
    double entryMm;
  };
  std::vector<Entry> stack{{0, entryOf(tree.root(), ray)}};
  while (!stack.empty()) {
    const Entry entry = stack.back();
    stack.pop_back();
    if (!(entry.entryMm < bestMm)) continue;
    const auto& node = tree.nodes()[entry.node];
    if (node.isLeaf()) {
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
        const double mm = distanceTo(tree.triangles()[i], ray);
        if (!(mm < bestMm)) continue;
        bestMm = mm;
        best = RayHit{mm, i};
      }
      continue;
    }
    Entry near{node.first, entryOf(tree.nodes()[node.first], ray)};
    Entry far{node.first + 1, entryOf(tree.nodes()[node.first + 1], ray)};
    if (far.entryMm < near.entryMm) std::swap(near, far);
    stack.push_back(far);
    stack.push_back(near);
  }
  return best;
}

}  // namespace swingroom
