#include "core/files/urdf/shape_meshes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>

#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

/// In mm, with no more digits than tell shapes apart.
std::string millimetreText(double metres) {
  return numberText(roundedWithin(1000 * metres, 1e-6));
}

/// How many facets go round, in fours: their middles lie inside by no more than is stated.
std::uint32_t facetsRound(double radiusMm, double share) {
  const double insideMm = std::max(0.05, radiusMm / 2000) * share;
  if (radiusMm <= insideMm) return 8;
  const double facets = kPi / std::acos(1 - insideMm / radiusMm);
  return std::max(8u, 4 * static_cast<std::uint32_t>(std::ceil(facets / 4)));
}

/// A point of the unit circle; exact where it meets the axes.
Eigen::Vector2d onCircle(std::uint32_t i, std::uint32_t facets) {
  const std::uint32_t quarter = facets / 4;
  constexpr std::array<std::array<double, 2>, 4> kTurns{{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};
  const double angleRad = kPi / 2 * (i % quarter) / quarter;
  const double c = i % quarter == 0 ? 1 : std::cos(angleRad);
  const double s = i % quarter == 0 ? 0 : std::sin(angleRad);
  const auto& x = kTurns[i / quarter % 4];
  return {c * x[0] - s * x[1], c * x[1] + s * x[0]};
}

TriangleMesh boxMesh(const Vector3d& sizeMm) {
  TriangleMesh mesh;
  for (int corner = 0; corner < 8; ++corner) {
    mesh.vertices.emplace_back(sizeMm.x() * ((corner & 1) ? 0.5 : -0.5),
                               sizeMm.y() * ((corner & 2) ? 0.5 : -0.5),
                               sizeMm.z() * ((corner & 4) ? 0.5 : -0.5));
  }
  mesh.triangles = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                    {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
  return mesh;
}

/// Rings of `facets` corners, first to last going up, closed by a point below and one above.
TriangleMesh ringsMesh(const std::vector<std::array<double, 2>>& radiusAndHeight,
                       std::uint32_t facets, double below, double above) {
  TriangleMesh mesh;
  const auto rings = static_cast<std::uint32_t>(radiusAndHeight.size());
  for (const auto& [radius, height] : radiusAndHeight) {
    for (std::uint32_t i = 0; i < facets; ++i) {
      const Eigen::Vector2d p = radius * onCircle(i, facets);
      mesh.vertices.emplace_back(p.x(), p.y(), height);
    }
  }
  const std::uint32_t bottom = rings * facets;
  mesh.vertices.emplace_back(0, 0, below);
  mesh.vertices.emplace_back(0, 0, above);
  const auto at = [&](std::uint32_t ring, std::uint32_t i) { return ring * facets + i % facets; };
  for (std::uint32_t i = 0; i < facets; ++i) {
    mesh.triangles.push_back({bottom, at(0, i + 1), at(0, i)});
    mesh.triangles.push_back({bottom + 1, at(rings - 1, i), at(rings - 1, i + 1)});
    for (std::uint32_t ring = 0; ring + 1 < rings; ++ring) {
      mesh.triangles.push_back({at(ring, i), at(ring, i + 1), at(ring + 1, i + 1)});
      mesh.triangles.push_back({at(ring, i), at(ring + 1, i + 1), at(ring + 1, i)});
    }
  }
  return mesh;
}

ShapeFile cylinderFile(double radiusMm, double lengthMm) {
  const std::uint32_t facets = facetsRound(radiusMm, 1);
  ShapeFile file;
  file.mesh = ringsMesh({{radiusMm, -lengthMm / 2}, {radiusMm, lengthMm / 2}}, facets,
                        -lengthMm / 2, lengthMm / 2);
  file.insideMm = radiusMm * (1 - std::cos(kPi / facets));
  return file;
}

ShapeFile sphereFile(double radiusMm) {
  // The middle of a square on a sphere lies twice as deep as the middles of its sides.
  const std::uint32_t facets = facetsRound(radiusMm, 0.5);
  const std::uint32_t belts = facets / 2;
  std::vector<std::array<double, 2>> rings;
  for (std::uint32_t i = 1; i < belts; ++i) {
    const double angleRad = kPi * i / belts - kPi / 2;
    const bool equator = 2 * i == belts;
    rings.push_back({equator ? radiusMm : radiusMm * std::cos(angleRad),
                     equator ? 0 : radiusMm * std::sin(angleRad)});
  }
  ShapeFile file;
  file.mesh = ringsMesh(rings, facets, -radiusMm, radiusMm);
  // The flat four-sided facet next to the equator: how far its plane is from the centre.
  const double c = std::cos(kPi / facets), belt = kPi / belts;
  const double plane = c * std::sin(belt) / std::hypot(c * (1 - std::cos(belt)), std::sin(belt));
  file.insideMm = radiusMm * (1 - plane);
  return file;
}

template <typename T>
void put(std::string& bytes, const T& value) {
  char raw[sizeof(T)];
  std::memcpy(raw, &value, sizeof(T));
  bytes.append(raw, sizeof(T));
}

}  // namespace

std::string stlBytes(const TriangleMesh& mesh) {
  std::string bytes("Swingroom: a shape of a robot description, mm");
  bytes.resize(80, ' ');
  put(bytes, static_cast<std::uint32_t>(mesh.triangles.size()));
  const auto putVector = [&](const Vector3d& v) {
    for (int i = 0; i < 3; ++i) put(bytes, static_cast<float>(v[i]));
  };
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Vector3d& a = mesh.corner(t, 0);
    putVector((mesh.corner(t, 1) - a).cross(mesh.corner(t, 2) - a).normalized());
    for (int i = 0; i < 3; ++i) putVector(mesh.corner(t, i));
    put(bytes, std::uint16_t{0});
  }
  return bytes;
}

ShapeFile shapeFile(const RobotShape& shape) {
  const auto& size = shape.sizeM;
  ShapeFile file;
  switch (shape.kind) {
    case RobotShapeKind::box:
      file.mesh = boxMesh(1000 * Vector3d(size[0], size[1], size[2]));
      file.name = "box_" + millimetreText(size[0]) + "x" + millimetreText(size[1]) + "x" +
                  millimetreText(size[2]);
      break;
    case RobotShapeKind::cylinder:
      file = cylinderFile(1000 * size[0], 1000 * size[1]);
      file.name = "cylinder_d" + millimetreText(2 * size[0]) + "_l" + millimetreText(size[1]);
      break;
    case RobotShapeKind::sphere:
      file = sphereFile(1000 * size[0]);
      file.name = "sphere_d" + millimetreText(2 * size[0]);
      break;
    case RobotShapeKind::mesh:
      break;
  }
  file.name += ".stl";
  return file;
}

}  // namespace swingroom
