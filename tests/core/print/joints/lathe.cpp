#include "tests/core/print/joints/lathe.h"

#include <cmath>

#include "core/mesh/weld.h"

namespace swingroom {

TriangleMesh lathed(const std::vector<Eigen::Vector2d>& outline, int sides, double turnRad) {
  TriangleMesh mesh;
  const auto corner = [&](std::size_t i, int side) {
    const double angle = turnRad * side / sides;
    const Eigen::Vector2d& p = outline[i % outline.size()];
    // A whole turn ends exactly where it begins.
    if (side == sides && turnRad == 2 * kPi) return Vector3d(p.x(), 0, p.y());
    return Vector3d(p.x() * std::cos(angle), p.x() * std::sin(angle), p.y());
  };
  const auto add = [&](const Vector3d& a, const Vector3d& b, const Vector3d& c) {
    if ((b - a).cross(c - a).norm() < 1e-12) return;
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), {a, b, c});
    mesh.triangles.push_back({first, first + 1, first + 2});
  };
  for (std::size_t i = 0; i < outline.size(); ++i) {
    for (int side = 0; side < sides; ++side) {
      const Vector3d a = corner(i, side), b = corner(i, side + 1), c = corner(i + 1, side + 1),
                     d = corner(i + 1, side);
      add(a, b, c);
      add(a, c, d);
    }
  }
  return welded(mesh);
}

std::vector<Eigen::Vector2d> arc(double radius, double from, double to, int pieces) {
  std::vector<Eigen::Vector2d> points;
  const double first = std::asin(from / radius), last = std::asin(to / radius);
  for (int i = 0; i <= pieces; ++i) {
    const double angle = first + (last - first) * i / pieces;
    points.emplace_back(radius * std::cos(angle), radius * std::sin(angle));
  }
  return points;
}

TriangleMesh socketWithLip(double socket, double lip, int sides, double turnRad) {
  std::vector<Eigen::Vector2d> outline{{0, -8}, {8, -8}, {8, lip}};
  std::vector<Eigen::Vector2d> inside = arc(socket, lip, -socket, 48);
  inside.back() = {0, -socket};
  outline.insert(outline.end(), inside.begin(), inside.end());
  return lathed(outline, sides, turnRad);
}

}  // namespace swingroom
