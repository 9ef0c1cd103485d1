#include "core/print/cautions/outer_points.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace swingroom {
namespace {

using Eigen::Vector2d;

/// Directions for points, and more of them for spans: round parts need one square to every axis.
constexpr std::size_t kPointDirections = 128, kSpanDirections = 512;

bool holds(const Circle& circle, const Vector2d& p) {
  return (p - circle.centre).norm() <= circle.radius * (1 + 1e-12) + 1e-12;
}

Circle circleOf(const Vector2d& a, const Vector2d& b) {
  return {(a + b) / 2, (a - b).norm() / 2};
}

/// Through three points; of points on a line the widest two.
Circle circleOf(const Vector2d& a, const Vector2d& b, const Vector2d& c) {
  const Vector2d u = b - a, v = c - a;
  const double cross = 2 * (u.x() * v.y() - u.y() * v.x());
  if (std::abs(cross) < 1e-14 * (u.squaredNorm() + v.squaredNorm())) {
    const Circle options[] = {circleOf(a, b), circleOf(a, c), circleOf(b, c)};
    return *std::max_element(std::begin(options), std::end(options),
                             [](const Circle& x, const Circle& y) { return x.radius < y.radius; });
  }
  const Vector2d centre(v.y() * u.squaredNorm() - u.y() * v.squaredNorm(),
                        u.x() * v.squaredNorm() - v.x() * u.squaredNorm());
  return {a + centre / cross, (centre / cross).norm()};
}

}  // namespace

std::vector<Vector3d> spreadDirections(std::size_t count) {
  std::vector<Vector3d> directions;
  const double golden = kPi * (3 - std::sqrt(5.0));
  for (std::size_t i = 0; i < count; ++i) {
    const double z = 1 - (2.0 * static_cast<double>(i) + 1) / static_cast<double>(count);
    const double r = std::sqrt(1 - z * z), turn = golden * static_cast<double>(i);
    directions.emplace_back(r * std::cos(turn), r * std::sin(turn), z);
  }
  return directions;
}

OuterPoints outerPoints(const TriangleMesh& mesh) {
  OuterPoints outer;
  if (mesh.vertices.empty()) return outer;
  outer.centre = boundsOf(mesh).center();
  for (const Vector3d& corner : mesh.vertices) {
    outer.reachMm = std::max(outer.reachMm, (corner - outer.centre).norm());
  }
  std::vector<Vector3d> directions = spreadDirections(kPointDirections);
  for (int axis = 0; axis < 3; ++axis) directions.push_back(Vector3d::Unit(axis));
  const std::size_t forPoints = directions.size();
  for (const Vector3d& more : spreadDirections(kSpanDirections)) directions.push_back(more);
  std::vector<std::size_t> taken;
  std::vector<std::pair<std::size_t, std::size_t>> ends;
  for (std::size_t d = 0; d < directions.size(); ++d) {
    std::size_t most = 0, least = 0;
    double highest = directions[d].dot(mesh.vertices[0]), lowest = highest;
    for (std::size_t i = 1; i < mesh.vertices.size(); ++i) {
      const double at = directions[d].dot(mesh.vertices[i]);
      if (at > highest) highest = at, most = i;
      if (at < lowest) lowest = at, least = i;
    }
    ends.push_back(std::minmax(most, least));
    if (d >= forPoints) continue;
    taken.push_back(most);
    taken.push_back(least);
  }
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  for (const auto& [a, b] : ends) outer.spans.emplace_back(mesh.vertices[a] - mesh.vertices[b]);
  std::sort(taken.begin(), taken.end());
  taken.erase(std::unique(taken.begin(), taken.end()), taken.end());
  for (const std::size_t i : taken) outer.points.push_back(mesh.vertices[i]);
  return outer;
}

Circle leastCircle(const std::vector<Vector2d>& points) {
  if (points.empty()) return {};
  Circle circle{points.front(), 0};
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (holds(circle, points[i])) continue;
    circle = {points[i], 0};
    for (std::size_t j = 0; j < i; ++j) {
      if (holds(circle, points[j])) continue;
      circle = circleOf(points[i], points[j]);
      for (std::size_t k = 0; k < j; ++k) {
        if (!holds(circle, points[k])) circle = circleOf(points[i], points[j], points[k]);
      }
    }
  }
  return circle;
}

}  // namespace swingroom
