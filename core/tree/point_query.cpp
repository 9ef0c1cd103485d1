#include "core/tree/point_query.h"

#include <Eigen/Geometry>
#include <array>
#include <cmath>
#include <numbers>

#include "core/base/ensure.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr std::size_t kMostLevels = 128;

double squaredDistanceToBox(const BoundingTree::Node& node, const Vector3d& p) {
  const Vector3d off = p - node.centre;
  double squared = 0;
  for (int i = 0; i < 3; ++i) {
    const double beyond = std::abs(node.axes.col(i).dot(off)) - node.half[i];
    if (beyond > 0) squared += beyond * beyond;
  }
  return squared;
}

enum class Hit { none, graze, fromFront, fromBack };

/// Ray from `p` along unit `d` against one triangle. Near an edge, or along the face, it is a graze.
Hit hitTriangle(const Vector3d& p, const Vector3d& d, const TriangleCorners& t) {
  const Vector3d a = t[0] - p, b = t[1] - p, c = t[2] - p;
  const double u = d.dot(c.cross(b)), v = d.dot(a.cross(c)), w = d.dot(b.cross(a));
  const double scale = std::max({a.squaredNorm(), b.squaredNorm(), c.squaredNorm()});
  const double close = 1e-12 * scale;
  const bool allLeft = u > close && v > close && w > close;
  const bool allRight = u < -close && v < -close && w < -close;
  if (!allLeft && !allRight) {
    const bool outside = (u > close || v > close || w > close) && (u < -close || v < -close || w < -close);
    if (outside) return Hit::none;
    // On an edge or in the face: matters only ahead of the point.
    const bool ahead = std::max({a.dot(d), b.dot(d), c.dot(d)}) > 0;
    return ahead ? Hit::graze : Hit::none;
  }
  const double along = u * a.dot(d) + v * b.dot(d) + w * c.dot(d);
  const bool ahead = (along > 0) == (u + v + w > 0);
  if (!ahead) return Hit::none;
  const Vector3d normal = (t[1] - t[0]).cross(t[2] - t[0]);
  return normal.dot(d) < 0 ? Hit::fromFront : Hit::fromBack;
}

bool rayMeetsBox(const BoundingTree::Node& node, const Vector3d& p, const Vector3d& d) {
  double enter = 0, leave = std::numeric_limits<double>::infinity();
  const double slack = 1e-9 * (1 + node.radius);
  const Vector3d origin = node.axes.transpose() * (p - node.centre);
  const Vector3d direction = node.axes.transpose() * d;
  for (int i = 0; i < 3; ++i) {
    const double low = -node.half[i] - slack - origin[i];
    const double high = node.half[i] + slack - origin[i];
    if (std::abs(direction[i]) < 1e-300) {  // 0 times infinity would be no number.
      if (low > 0 || high < 0) return false;
      continue;
    }
    enter = std::max(enter, std::min(low / direction[i], high / direction[i]));
    leave = std::min(leave, std::max(low / direction[i], high / direction[i]));
  }
  return enter <= leave;
}

/// Net number of times the surface is left along the ray; none if the ray grazes it.
std::optional<int> countAlong(const BoundingTree& tree, const Vector3d& p, const Vector3d& d) {
  int winding = 0;
  std::array<std::uint32_t, kMostLevels> stack;
  stack[0] = 0;
  std::size_t waiting = 1;
  while (waiting > 0) {
    const auto& node = tree.nodes()[stack[--waiting]];
    if (!rayMeetsBox(node, p, d)) continue;
    if (!node.isLeaf()) {
      SWINGROOM_ENSURE(waiting + 2 <= stack.size());
      stack[waiting++] = node.first;
      stack[waiting++] = node.first + 1;
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      const Hit hit = hitTriangle(p, d, tree.triangles()[i]);
      if (hit == Hit::graze) return std::nullopt;
      if (hit == Hit::fromBack) ++winding;
      if (hit == Hit::fromFront) --winding;
    }
  }
  return winding;
}

/// Sum of the triangles' solid angles over 4 pi. Slow, and never undecided.
/// Van Oosterom and Strackee, IEEE Trans. Biomed. Eng. 30(2), 1983.
int windingBySolidAngle(const BoundingTree& tree, const Vector3d& p) {
  double sum = 0;
  for (const auto& t : tree.triangles()) {
    const Vector3d a = t[0] - p, b = t[1] - p, c = t[2] - p;
    const double la = a.norm(), lb = b.norm(), lc = c.norm();
    const double denominator = la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb;
    sum += 2 * std::atan2(a.dot(b.cross(c)), denominator);
  }
  return static_cast<int>(std::lround(sum / (4 * std::numbers::pi)));
}

}  // namespace

std::optional<SurfacePoint> closestPoint(const BoundingTree& tree, const Vector3d& p, const PointHints& hints,
                                         std::size_t* looked) {
  if (tree.empty()) return std::nullopt;
  std::optional<SurfacePoint> best;
  double bestMm = hints.withinMm;
  double openSquared = bestMm * bestMm;  // Boxes at this distance or farther are left out.
  const auto compare = [&](std::uint32_t i) {
    const Vector3d q = closestPointOnTriangle(p, tree.triangles()[i]);
    const double distanceMm = (q - p).norm();
    if (distanceMm >= bestMm) return;
    bestMm = distanceMm;
    const double openMm = std::max(0.0, bestMm - hints.slackMm);
    openSquared = openMm * openMm;
    best = SurfacePoint{q, distanceMm, i};
  };
  if (hints.triangle) compare(*hints.triangle);
  struct Entry {
    std::uint32_t node;
    double squaredMm;
  };
  // One waits on each level of the tree, which halves its triangles on each.
  std::array<Entry, kMostLevels> stack;
  std::size_t waiting = 0;
  const auto& nodes = tree.nodes();
  Entry entry{0, squaredDistanceToBox(tree.root(), p)};
  std::size_t opened = 0;
  while (bestMm > hints.enoughMm) {
    if (entry.squaredMm < openSquared) {
      ++opened;
      const auto& node = nodes[entry.node];
      if (!node.isLeaf()) {
        Entry near{node.first, squaredDistanceToBox(nodes[node.first], p)};
        Entry far{node.first + 1, squaredDistanceToBox(nodes[node.first + 1], p)};
        if (far.squaredMm < near.squaredMm) std::swap(near, far);
        if (far.squaredMm < openSquared) {
          SWINGROOM_ENSURE(waiting < stack.size());
          stack[waiting++] = far;
        }
        entry = near;
        continue;
      }
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) compare(i);
    }
    if (waiting == 0) break;
    entry = stack[--waiting];
  }
  if (looked) *looked += opened;
  return best;
}

int windingNumber(const BoundingTree& tree, const Vector3d& p) {
  if (tree.empty()) return 0;
  if (squaredDistanceToBox(tree.root(), p) > 0) return 0;
  // No special directions: models have faces and edges along the axes and their diagonals.
  static const std::array<Vector3d, 5> directions = {
      Vector3d(0.5477, 0.3719, 0.7494).normalized(), Vector3d(-0.8113, 0.4271, 0.3991).normalized(),
      Vector3d(0.2337, -0.8829, 0.4073).normalized(), Vector3d(0.6151, 0.5903, -0.5227).normalized(),
      Vector3d(-0.4219, -0.3347, -0.8426).normalized()};
  for (const Vector3d& d : directions) {
    if (const auto count = countAlong(tree, p, d)) return *count;
  }
  return windingBySolidAngle(tree, p);
}

}  // namespace swingroom
