#include "tests/core/stages/stage_shapes.h"

#include <cmath>
#include <map>

#include "core/mesh/weld.h"

namespace swingroom::shapes {
namespace {

using Rim = std::vector<std::uint32_t>;

Rim addRim(TriangleMesh& mesh, int sides, const std::function<Vector3d(double angle)>& at) {
  Rim rim;
  for (int i = 0; i < sides; ++i) {
    rim.push_back(static_cast<std::uint32_t>(mesh.vertices.size()));
    mesh.vertices.push_back(at(2 * kPi * i / sides));
  }
  return rim;
}

void addBand(TriangleMesh& mesh, const Rim& lower, const Rim& upper) {
  for (std::size_t i = 0; i < lower.size(); ++i) {
    const std::size_t j = (i + 1) % lower.size();
    mesh.triangles.push_back({lower[i], lower[j], upper[j]});
    mesh.triangles.push_back({lower[i], upper[j], upper[i]});
  }
}

}  // namespace

TriangleMesh plateWithHole(double half, double thick, double radius, int sides, const Vector3d& holeAt) {
  TriangleMesh mesh;
  const auto square = [&](double z) {
    return [=](double angle) {
      const Vector3d way(std::cos(angle), std::sin(angle), 0);
      return Vector3d(half / way.cwiseAbs().maxCoeff() * way + Vector3d(0, 0, z));
    };
  };
  const auto circle = [&](double z) {
    return [=](double angle) {
      return Vector3d(holeAt + Vector3d(radius * std::cos(angle), radius * std::sin(angle), z));
    };
  };
  const Rim outerLow = addRim(mesh, sides, square(0)), outerHigh = addRim(mesh, sides, square(thick));
  const Rim innerLow = addRim(mesh, sides, circle(0)), innerHigh = addRim(mesh, sides, circle(thick));
  addBand(mesh, outerLow, outerHigh);
  addBand(mesh, innerHigh, innerLow);
  addBand(mesh, outerHigh, innerHigh);
  addBand(mesh, innerLow, outerLow);
  return mesh;
}

TriangleMesh tray(const Vector3d& outer, double wall) {
  TriangleMesh mesh;
  const auto rectangle = [&](double inset, double z) {
    const double x = outer.x() - inset, y = outer.y() - inset;
    Rim rim;
    for (const Vector3d& p : {Vector3d(inset, inset, z), Vector3d(x, inset, z), Vector3d(x, y, z),
                              Vector3d(inset, y, z)}) {
      rim.push_back(static_cast<std::uint32_t>(mesh.vertices.size()));
      mesh.vertices.push_back(p);
    }
    return rim;
  };
  const Rim low = rectangle(0, 0), high = rectangle(0, outer.z());
  const Rim floor = rectangle(wall, wall), rim = rectangle(wall, outer.z());
  addBand(mesh, low, high);
  addBand(mesh, high, rim);
  addBand(mesh, rim, floor);
  mesh.triangles.push_back({low[0], low[2], low[1]});
  mesh.triangles.push_back({low[0], low[3], low[2]});
  mesh.triangles.push_back({floor[0], floor[1], floor[2]});
  mesh.triangles.push_back({floor[0], floor[2], floor[3]});
  return mesh;
}

TriangleMesh splitFiner(const TriangleMesh& mesh, int times) {
  TriangleMesh fine = mesh;
  for (int round = 0; round < times; ++round) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> middles;
    const auto middle = [&](std::uint32_t a, std::uint32_t b) {
      const auto [found, isNew] = middles.try_emplace(std::minmax(a, b), 0u);
      if (isNew) {
        found->second = static_cast<std::uint32_t>(fine.vertices.size());
        fine.vertices.push_back((fine.vertices[a] + fine.vertices[b]) / 2);
      }
      return found->second;
    };
    std::vector<Triangle> split;
    for (const auto& [a, b, c] : fine.triangles) {
      const auto ab = middle(a, b), bc = middle(b, c), ca = middle(c, a);
      split.insert(split.end(), {Triangle{a, ab, ca}, Triangle{b, bc, ab}, Triangle{c, ca, bc},
                                 Triangle{ab, bc, ca}});
    }
    fine.triangles = std::move(split);
  }
  return fine;
}

TriangleMesh sculpted(const TriangleMesh& mesh, const std::function<double(const Vector3d&)>& height) {
  std::vector<Vector3d> normals(mesh.vertices.size(), Vector3d::Zero());
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d across = (mesh.corner(t, 1) - mesh.corner(t, 0)).cross(mesh.corner(t, 2) - mesh.corner(t, 0));
    for (const std::uint32_t v : mesh.triangles[t]) normals[v] += across;
  }
  TriangleMesh made = mesh;
  for (std::size_t v = 0; v < mesh.vertices.size(); ++v) {
    made.vertices[v] += height(mesh.vertices[v]) * normals[v].normalized();
  }
  return made;
}

TriangleMesh inFloats(const TriangleMesh& mesh) {
  TriangleMesh rounded = mesh;
  for (Vector3d& v : rounded.vertices) v = v.cast<float>().cast<double>();
  return welded(rounded);
}

StageSurface stage(const TriangleMesh& mesh) {
  return StageSurface(std::make_shared<const TriangleMesh>(welded(mesh)));
}

}  // namespace swingroom::shapes
