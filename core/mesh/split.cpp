#include "core/mesh/split.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "core/mesh/polygon.h"
#include "core/mesh/weld.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;
constexpr int kSides = 48;

void append(TriangleMesh& mesh, const Polygon& polygon) {
  const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
  mesh.vertices.insert(mesh.vertices.end(), polygon.begin(), polygon.end());
  for (std::uint32_t i = 1; i + 1 < polygon.size(); ++i) mesh.triangles.push_back({first, first + i, first + i + 1});
}

/// Splits one triangle at a convex region; it stays whole where the region does not meet it.
void splitTriangle(const Polygon& triangle, const std::vector<HalfSpace>& region, SplitMesh& result) {
  Polygon rest = triangle;
  std::vector<Polygon> cutOff;
  for (const HalfSpace& space : region) {
    CutPolygon parts = cut(rest, space);
    if (parts.inside.size() < 3) return append(result.outside, triangle);
    if (parts.outside.size() >= 3) cutOff.push_back(std::move(parts.outside));
    rest = std::move(parts.inside);
  }
  for (const Polygon& polygon : cutOff) append(result.outside, polygon);
  append(result.inside, rest);
}

Polygon polygonOf(const TriangleMesh& mesh, std::size_t t) {
  return {mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)};
}

SplitMesh weldedParts(const SplitMesh& split) { return {welded(split.inside), welded(split.outside)}; }

/// Regular prism about a circle's axis, corners on the circle; without ends.
std::vector<HalfSpace> prismRound(const Vector3d& centre, const Vector3d& axis, double radius) {
  const Vector3d u = axis.unitOrthogonal(), v = axis.cross(u);
  std::vector<HalfSpace> prism;
  for (int k = 0; k < kSides; ++k) {
    const double angle = 2 * std::numbers::pi * k / kSides;
    const Vector3d normal = std::cos(angle) * u + std::sin(angle) * v;
    prism.push_back({normal, normal.dot(centre) + radius * std::cos(std::numbers::pi / kSides)});
  }
  return prism;
}

}  // namespace

double areaOf(const TriangleMesh& mesh) {
  double area = 0;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    area += 0.5 * (mesh.corner(t, 1) - mesh.corner(t, 0)).cross(mesh.corner(t, 2) - mesh.corner(t, 0)).norm();
  }
  return area;
}

SplitMesh splitByCylinder(const TriangleMesh& mesh, const Vector3d& through, const Vector3d& axis, double radius,
                          double from, double to) {
  std::vector<HalfSpace> region = {{axis, axis.dot(through) + to}, {-axis, -axis.dot(through) - from}};
  const auto sides = prismRound(through, axis, radius);
  region.insert(region.end(), sides.begin(), sides.end());
  SplitMesh split;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) splitTriangle(polygonOf(mesh, t), region, split);
  return weldedParts(split);
}

SplitMesh splitByBall(const TriangleMesh& mesh, const Vector3d& centre, double radius) {
  SplitMesh split;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Polygon triangle = polygonOf(mesh, t);
    const Vector3d normal = (triangle[1] - triangle[0]).cross(triangle[2] - triangle[0]).normalized();
    const double height = normal.dot(triangle[0] - centre);
    const double squared = radius * radius - height * height;
    if (!(squared > 0)) {
      append(split.outside, triangle);
    } else {
      splitTriangle(triangle, prismRound(centre + height * normal, normal, std::sqrt(squared)), split);
    }
  }
  return weldedParts(split);
}

}  // namespace swingroom
