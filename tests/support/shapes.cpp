#include "tests/support/shapes.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace swingroom::shapes {
namespace {

using Ring = std::vector<std::uint32_t>;

/// Two triangles a quad between two rings of the same size; `lower` to `upper` with outside on the right.
void joinRings(TriangleMesh& mesh, const Ring& lower, const Ring& upper) {
  for (std::size_t i = 0; i < lower.size(); ++i) {
    const std::size_t j = (i + 1) % lower.size();
    mesh.triangles.push_back({lower[i], lower[j], upper[j]});
    mesh.triangles.push_back({lower[i], upper[j], upper[i]});
  }
}

Ring addCircle(TriangleMesh& mesh, double radius, double z, int sides) {
  Ring ring;
  for (int i = 0; i < sides; ++i) {
    const double angle = 2 * kPi * i / sides;
    ring.push_back(static_cast<std::uint32_t>(mesh.vertices.size()));
    mesh.vertices.emplace_back(radius * std::cos(angle), radius * std::sin(angle), z);
  }
  return ring;
}

std::uint32_t addVertex(TriangleMesh& mesh, const Vector3d& vertex) {
  mesh.vertices.push_back(vertex);
  return static_cast<std::uint32_t>(mesh.vertices.size() - 1);
}

void addFan(TriangleMesh& mesh, std::uint32_t apex, const Ring& ring, bool turned) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const std::size_t j = (i + 1) % ring.size();
    if (turned) {
      mesh.triangles.push_back({apex, ring[j], ring[i]});
    } else {
      mesh.triangles.push_back({apex, ring[i], ring[j]});
    }
  }
}

}  // namespace

TriangleMesh box(const Vector3d& low, const Vector3d& high) {
  return prism({{low.x(), low.y()}, {high.x(), low.y()}, {high.x(), high.y()}, {low.x(), high.y()}}, low.z(),
               high.z());
}

TriangleMesh prism(const std::vector<Eigen::Vector2d>& outline, double low, double high) {
  TriangleMesh mesh;
  Ring lower, upper;
  for (const auto& p : outline) lower.push_back(addVertex(mesh, {p.x(), p.y(), low}));
  for (const auto& p : outline) upper.push_back(addVertex(mesh, {p.x(), p.y(), high}));
  joinRings(mesh, lower, upper);
  for (std::size_t i = 1; i + 1 < outline.size(); ++i) {
    mesh.triangles.push_back({lower[0], lower[i + 1], lower[i]});
    mesh.triangles.push_back({upper[0], upper[i], upper[i + 1]});
  }
  return mesh;
}

TriangleMesh cylinder(double radius, double low, double high, int sides) {
  TriangleMesh mesh;
  const Ring lower = addCircle(mesh, radius, low, sides);
  const Ring upper = addCircle(mesh, radius, high, sides);
  joinRings(mesh, lower, upper);
  addFan(mesh, addVertex(mesh, {0, 0, low}), lower, true);
  addFan(mesh, addVertex(mesh, {0, 0, high}), upper, false);
  return mesh;
}

TriangleMesh tube(double outerRadius, double innerRadius, double low, double high, int sides) {
  TriangleMesh mesh;
  const Ring outerLow = addCircle(mesh, outerRadius, low, sides);
  const Ring outerHigh = addCircle(mesh, outerRadius, high, sides);
  const Ring innerLow = addCircle(mesh, innerRadius, low, sides);
  const Ring innerHigh = addCircle(mesh, innerRadius, high, sides);
  joinRings(mesh, outerLow, outerHigh);
  joinRings(mesh, innerHigh, innerLow);
  joinRings(mesh, outerHigh, innerHigh);
  joinRings(mesh, innerLow, outerLow);
  return mesh;
}

TriangleMesh sphere(double radius, int splits) {
  const double t = (1 + std::sqrt(5.0)) / 2;
  TriangleMesh mesh;
  mesh.vertices = {{-1, t, 0}, {1, t, 0}, {-1, -t, 0}, {1, -t, 0}, {0, -1, t}, {0, 1, t},
                   {0, -1, -t}, {0, 1, -t}, {t, 0, -1}, {t, 0, 1}, {-t, 0, -1}, {-t, 0, 1}};
  mesh.triangles = {{0, 11, 5}, {0, 5, 1}, {0, 1, 7}, {0, 7, 10}, {0, 10, 11}, {1, 5, 9}, {5, 11, 4},
                    {11, 10, 2}, {10, 7, 6}, {7, 1, 8}, {3, 9, 4}, {3, 4, 2}, {3, 2, 6}, {3, 6, 8},
                    {3, 8, 9}, {4, 9, 5}, {2, 4, 11}, {6, 2, 10}, {8, 6, 7}, {9, 8, 1}};
  for (int s = 0; s < splits; ++s) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middles;
    const auto middle = [&](std::uint32_t a, std::uint32_t b) {
      const auto [found, isNew] = middles.try_emplace(std::minmax(a, b), 0u);
      if (isNew) found->second = addVertex(mesh, (mesh.vertices[a].normalized() + mesh.vertices[b].normalized()));
      return found->second;
    };
    std::vector<Triangle> split;
    for (const auto& [a, b, c] : mesh.triangles) {
      const auto ab = middle(a, b), bc = middle(b, c), ca = middle(c, a);
      split.insert(split.end(), {Triangle{a, ab, ca}, Triangle{b, bc, ab}, Triangle{c, ca, bc}, Triangle{ab, bc, ca}});
    }
    mesh.triangles = std::move(split);
  }
  for (auto& vertex : mesh.vertices) vertex = radius * vertex.normalized();
  return mesh;
}

TriangleMesh capsule(double radius, double length, int sides) {
  TriangleMesh mesh;
  const int rows = sides / 4;
  std::vector<Ring> rings;
  const auto addRing = [&](double x, double ringRadius) {
    Ring ring;
    for (int i = 0; i < sides; ++i) {
      const double angle = 2 * kPi * i / sides;
      ring.push_back(addVertex(mesh, {x, ringRadius * std::cos(angle), ringRadius * std::sin(angle)}));
    }
    rings.push_back(ring);
  };
  for (int r = 1; r <= rows; ++r) {
    const double angle = kPi / 2 * r / rows;
    addRing(-radius * std::cos(angle), radius * std::sin(angle));
  }
  for (int r = rows; r >= 1; --r) {
    const double angle = kPi / 2 * r / rows;
    addRing(length + radius * std::cos(angle), radius * std::sin(angle));
  }
  for (std::size_t r = 0; r + 1 < rings.size(); ++r) joinRings(mesh, rings[r], rings[r + 1]);
  addFan(mesh, addVertex(mesh, {-radius, 0, 0}), rings.front(), true);
  addFan(mesh, addVertex(mesh, {length + radius, 0, 0}), rings.back(), false);
  return mesh;
}

TriangleMesh torus(double ringRadius, double tubeRadius, int around, int across) {
  TriangleMesh mesh;
  std::vector<Ring> rings;
  for (int i = 0; i < around; ++i) {
    const double u = 2 * kPi * i / around;
    Ring ring;
    for (int j = 0; j < across; ++j) {
      const double v = 2 * kPi * j / across;
      const double r = ringRadius + tubeRadius * std::cos(v);
      ring.push_back(addVertex(mesh, {r * std::cos(u), r * std::sin(u), tubeRadius * std::sin(v)}));
    }
    rings.push_back(ring);
  }
  for (std::size_t i = 0; i < rings.size(); ++i) joinRings(mesh, rings[(i + 1) % rings.size()], rings[i]);
  return mesh;
}

TriangleMesh joined(const std::vector<TriangleMesh>& meshes) {
  TriangleMesh all;
  for (const auto& mesh : meshes) {
    const auto first = static_cast<std::uint32_t>(all.vertices.size());
    all.vertices.insert(all.vertices.end(), mesh.vertices.begin(), mesh.vertices.end());
    for (const auto& [a, b, c] : mesh.triangles) all.triangles.push_back({a + first, b + first, c + first});
  }
  return all;
}

TriangleMesh reversed(TriangleMesh mesh) {
  for (auto& triangle : mesh.triangles) std::swap(triangle[1], triangle[2]);
  return mesh;
}

TriangleMesh moved(const TriangleMesh& mesh, const Pose& X) { return transformed(mesh, Eigen::Affine3d(X)); }

double sagitta(double radius, int sides) { return radius * (1 - std::cos(kPi / sides)); }

Pose randomPose(std::mt19937_64& random, double reach) {
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> place(-reach, reach);
  Eigen::Quaterniond q(normal(random), normal(random), normal(random), normal(random));
  Pose X = Pose::Identity();
  X.linear() = q.normalized().toRotationMatrix();
  X.translation() = Vector3d(place(random), place(random), place(random));
  return X;
}

}  // namespace swingroom::shapes
