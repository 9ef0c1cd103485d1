#include "core/mesh/flat_features.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <utility>

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kFlatMm = 0.01;
const double kCosSameWay = std::cos(2 * std::numbers::pi / 180);
const double kCosEdge = std::cos(3 * std::numbers::pi / 180);  // A bend that is seen as an edge.

using MeshEdge = std::pair<std::uint32_t, std::uint32_t>;  // Vertices, lower first.

double distanceTo(const Vector3d& p, const Vector3d& a, const Vector3d& b) {
  const Vector3d ab = b - a;
  const double t = std::clamp((p - a).dot(ab) / std::max(ab.squaredNorm(), 1e-300), 0.0, 1.0);
  return (a + t * ab - p).norm();
}

/// Edges of the mesh that are edges of the body, and which meet at each vertex.
class BodyEdges {
 public:
  BodyEdges(const TriangleMesh& mesh, const SurfaceTopology& topology,
            const std::function<bool(std::uint32_t, std::uint32_t)>& mayBe)
      : mesh_(mesh) {
    for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
      for (std::size_t i = 0; i < 3; ++i) {
        const std::uint32_t next = topology.neighbours[t][i];
        if (next != SurfaceTopology::kNone) {
          if (next < t || topology.cosBend(t, next) > kCosEdge || !mayBe(t, next)) continue;
        }
        add(mesh.triangles[t][i], mesh.triangles[t][(i + 1) % 3]);
      }
    }
  }

  std::optional<MeshEdge> nearestTo(const Vector3d& point, double withinMm) const {
    std::optional<MeshEdge> nearest;
    double least = withinMm;
    for (const MeshEdge& edge : edges_) {
      const double d = distanceTo(point, mesh_.vertices[edge.first], mesh_.vertices[edge.second]);
      if (d > least || (nearest && d == least)) continue;
      least = d;
      nearest = edge;
    }
    return nearest;
  }

  /// From `edge` on as long as it runs straight.
  EdgeFeature straightened(const MeshEdge& edge) const {
    const Vector3d a = mesh_.vertices[edge.first], b = mesh_.vertices[edge.second];
    const Vector3d along = (b - a).normalized();
    EdgeFeature found;
    found.to = walked(edge.first, edge.second, a, along, found.residualMm);
    found.from = walked(edge.second, edge.first, b, -along, found.residualMm);
    return found;
  }

 private:
  void add(std::uint32_t a, std::uint32_t b) {
    edges_.emplace_back(std::min(a, b), std::max(a, b));
    meets_[a].push_back(b);
    meets_[b].push_back(a);
  }

  Vector3d walked(std::uint32_t before, std::uint32_t at, const Vector3d& origin,
                  const Vector3d& along, double& residual) const {
    for (;;) {
      std::optional<std::uint32_t> onward;
      for (const std::uint32_t next : meets_.at(at)) {
        if (next == before) continue;
        const Vector3d w = mesh_.vertices[next] - origin;
        const double off = (w - w.dot(along) * along).norm();
        const Vector3d step = mesh_.vertices[next] - mesh_.vertices[at];
        if (off > kFlatMm || step.dot(along) < kCosSameWay * step.norm()) continue;
        residual = std::max(residual, off);
        onward = next;
        break;
      }
      if (!onward) return mesh_.vertices[at];
      before = std::exchange(at, *onward);
    }
  }

  const TriangleMesh& mesh_;
  std::vector<MeshEdge> edges_;
  std::map<std::uint32_t, std::vector<std::uint32_t>> meets_;
};

}  // namespace

std::vector<std::uint32_t> flatRegion(const TriangleMesh& mesh, const SurfaceTopology& topology,
                                      std::uint32_t seed) {
  const Vector3d normal = topology.normals[seed];
  const Vector3d origin = mesh.corner(seed, 0);
  std::vector<std::uint32_t> region{seed};
  std::set<std::uint32_t> seen{seed};
  const auto lies = [&](std::uint32_t t) {
    for (int i = 0; i < 3; ++i) {
      if (std::abs((mesh.corner(t, i) - origin).dot(normal)) > kFlatMm) return false;
    }
    return topology.normals[t].dot(normal) > kCosSameWay || topology.areas[t] < 1e-4;
  };
  for (std::size_t i = 0; i < region.size(); ++i) {
    for (const std::uint32_t next : topology.neighbours[region[i]]) {
      if (next == SurfaceTopology::kNone || seen.count(next) || !lies(next)) continue;
      seen.insert(next);
      region.push_back(next);
    }
  }
  std::sort(region.begin(), region.end());
  return region;
}

std::optional<PlaneFeature> planeOf(const TriangleMesh& mesh, const SurfaceTopology& topology,
                                    const std::vector<std::uint32_t>& triangles) {
  PlaneFeature plane;
  Vector3d normal = Vector3d::Zero();
  for (const std::uint32_t t : triangles) {
    const double area = topology.areas[t];
    plane.areaMm2 += area;
    normal += area * topology.normals[t];
    plane.middle += area / 3 * (mesh.corner(t, 0) + mesh.corner(t, 1) + mesh.corner(t, 2));
  }
  if (!(plane.areaMm2 > 0)) return std::nullopt;
  plane.middle /= plane.areaMm2;
  plane.normal = normal.normalized();
  for (const std::uint32_t t : triangles) {
    for (int i = 0; i < 3; ++i) {
      const double off = std::abs((mesh.corner(t, i) - plane.middle).dot(plane.normal));
      plane.residualMm = std::max(plane.residualMm, off);
    }
  }
  return plane;
}

std::optional<EdgeFeature> straightEdgeNear(
    const TriangleMesh& mesh, const SurfaceTopology& topology, std::uint32_t triangle,
    const Vector3d& point, double withinMm,
    const std::function<bool(std::uint32_t, std::uint32_t)>& mayBe) {
  if (triangle >= mesh.triangles.size()) return std::nullopt;
  const BodyEdges edges(mesh, topology, mayBe);
  const auto nearest = edges.nearestTo(point, withinMm);
  if (!nearest) return std::nullopt;
  return edges.straightened(*nearest);
}

}  // namespace swingroom
