#include "core/sweep/revolved.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;
using Ring = RevolvedTree::Ring;

constexpr double kSameLine = 1e-11;  ///< Off by no more than 1e-9 mm over 100 mm.

double cross2(const Vector2d& a, const Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }

double distanceToSegment(const Vector2d& a, const Vector2d& b) {
  const Vector2d along = b - a;
  const double squared = along.squaredNorm();
  const double share = squared > 0 ? std::clamp(-a.dot(along) / squared, 0.0, 1.0) : 0;
  return (a + share * along).norm();
}

Ring ringOf(const TriangleCorners& t, const AxisLine& line, const Vector3d& u, const Vector3d& v) {
  std::array<Vector2d, 3> flat;
  Ring ring{0, 0, line.direction.dot(t[0] - line.point), line.direction.dot(t[0] - line.point)};
  for (std::size_t k = 0; k < 3; ++k) {
    const Vector3d p = t[k] - line.point;
    flat[k] = {u.dot(p), v.dot(p)};
    ring.rHigh = std::max(ring.rHigh, flat[k].norm());
    ring.zLow = std::min(ring.zLow, line.direction.dot(p));
    ring.zHigh = std::max(ring.zHigh, line.direction.dot(p));
  }
  const double s0 = cross2(flat[0], flat[1]), s1 = cross2(flat[1], flat[2]), s2 = cross2(flat[2], flat[0]);
  const bool onLine = (s0 >= 0 && s1 >= 0 && s2 >= 0) || (s0 <= 0 && s1 <= 0 && s2 <= 0);
  if (!onLine) {
    ring.rLow = std::min({distanceToSegment(flat[0], flat[1]), distanceToSegment(flat[1], flat[2]),
                          distanceToSegment(flat[2], flat[0])});
  }
  return ring;
}

void widen(Ring& ring, const Ring& by) {
  ring.rLow = std::min(ring.rLow, by.rLow);
  ring.rHigh = std::max(ring.rHigh, by.rHigh);
  ring.zLow = std::min(ring.zLow, by.zLow);
  ring.zHigh = std::max(ring.zHigh, by.zHigh);
}

}  // namespace

bool sameLine(const AxisLine& a, const AxisLine& b) {
  const Vector3d off = b.point - a.point;
  return a.direction.cross(b.direction).norm() <= kSameLine &&
         off.cross(a.direction).norm() <= 1e-9;
}

std::optional<AxisLine> turningLine(const MotionAtInstant& motion) {
  if (motion.axes.empty()) return std::nullopt;
  const AxisLine first{motion.axes.front().point, motion.axes.front().direction};
  const bool turnsOnly = std::all_of(motion.axes.begin(), motion.axes.end(), [&](const MovingAxis& axis) {
    return sameLine(first, {axis.point, axis.direction}) && axis.slideRateMm == 0;
  });
  if (!turnsOnly) return std::nullopt;
  return first;
}

RevolvedTree::RevolvedTree(const BoundingTree& tree, const AxisLine& line) {
  const Vector3d u = line.direction.unitOrthogonal(), v = line.direction.cross(u);
  std::vector<Ring> triangles;
  triangles.reserve(tree.triangles().size());
  for (const TriangleCorners& t : tree.triangles()) triangles.push_back(ringOf(t, line, u, v));
  nodes_.resize(tree.nodes().size());
  fit(tree, 0, triangles);
}

void RevolvedTree::fit(const BoundingTree& tree, std::size_t index, const std::vector<Ring>& triangles) {
  const BoundingTree::Node& node = tree.nodes()[index];
  if (node.isLeaf()) {
    nodes_[index] = triangles[node.first];
    for (std::uint32_t i = 1; i < node.count; ++i) widen(nodes_[index], triangles[node.first + i]);
    return;
  }
  fit(tree, node.first, triangles);
  fit(tree, node.first + 1, triangles);
  nodes_[index] = nodes_[node.first];
  widen(nodes_[index], nodes_[node.first + 1]);
}

double ringGapMm(const Ring& a, const Ring& b) {
  const double r = std::max({0.0, a.rLow - b.rHigh, b.rLow - a.rHigh});
  const double z = std::max({0.0, a.zLow - b.zHigh, b.zLow - a.zHigh});
  return std::sqrt(r * r + z * z);
}

}  // namespace swingroom
