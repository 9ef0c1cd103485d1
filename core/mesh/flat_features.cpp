#include "core/mesh/flat_features.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <utility>

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kFlatMm = 0.01;
const double kCosSameWay = std::cos(2 * std::numbers::pi / 180);
const double kCosEdge = std::cos(3 * std::numbers::pi / 180);  // A bend that is seen as an edge.

double distanceTo(const Vector3d& p, const Vector3d& a, const Vector3d& b) {
  const Vector3d ab = b - a;
  const double t = std::clamp((p - a).dot(ab) / std::max(ab.squaredNorm(), 1e-300), 0.0, 1.0);
  return (a + t * ab - p).norm();
}

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

BodyEdges::BodyEdges(const TriangleMesh& mesh, const SurfaceTopology& topology,
                     const std::function<bool(std::uint32_t, std::uint32_t)>& mayBe)
    : mesh_(&mesh) {
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t next = topology.neighbours[t][i];
      if (next != SurfaceTopology::kNone) {
        if (next < t || topology.cosBend(t, next) > kCosEdge || !mayBe(t, next)) continue;
      }
      const std::uint32_t a = mesh.triangles[t][i], b = mesh.triangles[t][(i + 1) % 3];
      edges_.emplace_back(std::min(a, b), std::max(a, b));
      meets_.emplace_back(a, b);
      meets_.emplace_back(b, a);
    }
  }
  std::sort(meets_.begin(), meets_.end());
}

std::optional<EdgeFeature> BodyEdges::straightNear(const Vector3d& point, double withinMm) const {
  std::optional<VertexPair> nearest;
  double least = withinMm;
  for (const VertexPair& edge : edges_) {
    const double d = distanceTo(point, mesh_->vertices[edge.first], mesh_->vertices[edge.second]);
    if (d > least || (nearest && d == least)) continue;
    least = d;
    nearest = edge;
  }
  if (!nearest) return std::nullopt;
  const Vector3d a = mesh_->vertices[nearest->first], b = mesh_->vertices[nearest->second];
  const Vector3d along = (b - a).normalized();
  EdgeFeature found;
  found.to = walked(*nearest, a, along, found.residualMm);
  found.from = walked({nearest->second, nearest->first}, b, -along, found.residualMm);
  return found;
}

/// From the pair's second vertex on, as long as it runs straight.
Vector3d BodyEdges::walked(const VertexPair& from, const Vector3d& origin, const Vector3d& along,
                           double& residual) const {
  std::uint32_t before = from.first, at = from.second;
  for (;;) {
    std::optional<std::uint32_t> onward;
    auto it = std::lower_bound(meets_.begin(), meets_.end(), VertexPair{at, 0});
    for (; it != meets_.end() && it->first == at; ++it) {
      if (it->second == before) continue;
      const Vector3d w = mesh_->vertices[it->second] - origin;
      const double off = (w - w.dot(along) * along).norm();
      const Vector3d step = mesh_->vertices[it->second] - mesh_->vertices[at];
      if (off > kFlatMm || step.dot(along) < kCosSameWay * step.norm()) continue;
      residual = std::max(residual, off);
      onward = it->second;
      break;
    }
    if (!onward) return mesh_->vertices[at];
    before = std::exchange(at, *onward);
  }
}

}  // namespace swingroom
