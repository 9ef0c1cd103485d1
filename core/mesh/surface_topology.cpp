#include "core/mesh/surface_topology.h"

#include <algorithm>

namespace swingroom {
namespace {

struct HalfEdge {
  std::uint32_t low, high;  // Vertices.
  std::uint32_t triangle;
  std::uint32_t side;

  bool sameEdge(const HalfEdge& other) const { return low == other.low && high == other.high; }
  auto key() const { return std::tuple(low, high, triangle, side); }
};

std::vector<HalfEdge> sortedEdges(const TriangleMesh& mesh) {
  std::vector<HalfEdge> edges;
  edges.reserve(3 * mesh.triangles.size());
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    for (std::uint32_t side = 0; side < 3; ++side) {
      const std::uint32_t a = mesh.triangles[t][side], b = mesh.triangles[t][(side + 1) % 3];
      edges.push_back({std::min(a, b), std::max(a, b), t, side});
    }
  }
  std::sort(edges.begin(), edges.end(),
            [](const HalfEdge& a, const HalfEdge& b) { return a.key() < b.key(); });
  return edges;
}

}  // namespace

SurfaceTopology::SurfaceTopology(const TriangleMesh& mesh)
    : normals(mesh.triangles.size(), Eigen::Vector3d::Zero()),
      areas(mesh.triangles.size(), 0),
      neighbours(mesh.triangles.size(), {kNone, kNone, kNone}) {
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Eigen::Vector3d across =
        (mesh.corner(t, 1) - mesh.corner(t, 0)).cross(mesh.corner(t, 2) - mesh.corner(t, 0));
    const double twice = across.norm();
    areas[t] = twice / 2;
    if (twice > 0) normals[t] = across / twice;
  }
  const std::vector<HalfEdge> edges = sortedEdges(mesh);
  for (std::size_t begin = 0; begin < edges.size();) {
    std::size_t end = begin + 1;
    while (end < edges.size() && edges[end].sameEdge(edges[begin])) ++end;
    if (end - begin == 2) {
      const HalfEdge &a = edges[begin], &b = edges[begin + 1];
      neighbours[a.triangle][a.side] = b.triangle;
      neighbours[b.triangle][b.side] = a.triangle;
    }
    begin = end;
  }
}

}  // namespace swingroom
