#include "core/print/cautions/sharp_edges.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <vector>

#include "core/mesh/surface_topology.h"

namespace swingroom {
namespace {

constexpr double kSharpRad = radFromDeg(60);
/// Shorter edges and fans are a mesh's noise, mm.
constexpr double kFeltMm = 0.2;

class EdgeRuns {
 public:
  void join(std::uint32_t a, std::uint32_t b) {
    for (const std::uint32_t v : {a, b}) parent_.try_emplace(v, v);
    parent_[root(a)] = root(b);
  }
  std::size_t count() {
    return static_cast<std::size_t>(std::count_if(
        parent_.begin(), parent_.end(), [&](const auto& at) { return at.second == at.first; }));
  }

 private:
  std::uint32_t root(std::uint32_t v) {
    while (parent_[v] != v) v = parent_[v] = parent_[parent_[v]];
    return v;
  }
  std::map<std::uint32_t, std::uint32_t> parent_;
};

void addEdges(const TriangleMesh& mesh, const SurfaceTopology& topology, SharpEdges& sharp) {
  EdgeRuns runs;
  sharp.leastRad = kPi;
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t other = topology.neighbours[t][i];
      if (other == SurfaceTopology::kNone || other < t) continue;
      if (topology.areas[t] <= 0 || topology.areas[other] <= 0) continue;
      const double betweenRad = kPi - std::acos(std::clamp(topology.cosBend(t, other), -1.0, 1.0));
      if (betweenRad >= kSharpRad) continue;
      const std::uint32_t a = mesh.triangles[t][i], b = mesh.triangles[t][(i + 1) % 3];
      const Vector3d &p = mesh.vertices[a], &q = mesh.vertices[b];
      const double lengthMm = (q - p).norm();
      // The other face goes off behind this one: else it is a notch.
      const Vector3d intoOther = (q - p).cross(topology.normals[other]);
      if (topology.normals[t].dot(intoOther) >= 0 || lengthMm < kFeltMm) continue;
      const double width = std::min(topology.areas[t], topology.areas[other]) * 2 / lengthMm;
      if (width < kFeltMm) continue;
      runs.join(a, b);
      sharp.lengthMm += lengthMm;
      if (betweenRad >= sharp.leastRad) continue;
      sharp.leastRad = betweenRad;
      sharp.sharpest_P = (p + q) / 2;
    }
  }
  sharp.edges = runs.count();
  if (sharp.edges == 0) sharp.leastRad = 0;
}

void addPoints(const TriangleMesh& mesh, const SurfaceTopology& topology, SharpEdges& sharp) {
  std::vector<Vector3d> away(mesh.vertices.size(), Vector3d::Zero());
  std::vector<Vector3d> outwards = away;
  const auto edgeFrom = [&](const Triangle& triangle, std::size_t i, std::size_t j) {
    return Vector3d(mesh.vertices[triangle[j]] - mesh.vertices[triangle[i]]);
  };
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    for (std::size_t i = 0; i < 3; ++i) {
      const Triangle& triangle = mesh.triangles[t];
      for (const std::size_t j : {(i + 1) % 3, (i + 2) % 3}) {
        away[triangle[i]] += edgeFrom(triangle, i, j).normalized();
      }
      outwards[triangle[i]] += topology.normals[t];
    }
  }
  std::vector<double> widest(mesh.vertices.size(), 0);  // off the cone's axis
  std::vector<bool> used(mesh.vertices.size(), false), small(mesh.vertices.size(), false);
  for (const Triangle& triangle : mesh.triangles) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t v = triangle[i];
      used[v] = true;
      for (const std::size_t j : {(i + 1) % 3, (i + 2) % 3}) {
        const Vector3d edge = edgeFrom(triangle, i, j);
        if (edge.norm() < kFeltMm) small[v] = true;
        if (away[v].norm() < 1e-9) continue;
        const double cosine = edge.normalized().dot(away[v].normalized());
        widest[v] = std::max(widest[v], std::acos(std::clamp(cosine, -1.0, 1.0)));
      }
    }
  }
  for (std::size_t v = 0; v < mesh.vertices.size(); ++v) {
    if (!used[v] || small[v] || away[v].norm() < 1e-9) continue;
    if (widest[v] >= kSharpRad / 2 || outwards[v].dot(away[v]) >= 0) continue;
    ++sharp.points;
    if (!sharp.point_P) sharp.point_P = mesh.vertices[v];
  }
}

}  // namespace

SharpEdges sharpEdges(const TriangleMesh& mesh) {
  SharpEdges sharp;
  const SurfaceTopology topology(mesh);
  addEdges(mesh, topology, sharp);
  addPoints(mesh, topology, sharp);
  return sharp;
}

}  // namespace swingroom
