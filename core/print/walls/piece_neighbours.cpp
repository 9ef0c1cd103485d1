#include "core/print/walls/piece_neighbours.h"

#include <algorithm>
#include <numeric>

#include "core/base/parallel.h"
#include "core/mesh/weld.h"
#include "core/tree/point_query.h"

namespace swingroom {

PieceNeighbours::PieceNeighbours(const std::vector<WallPlace>& places, unsigned threads) {
  TriangleMesh mesh;
  for (const WallPlace& place : places) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), place.corners_P.begin(), place.corners_P.end());
    mesh.triangles.push_back({first, first + 1, first + 2});
  }
  mesh = welded(mesh);
  corners = mesh.triangles;
  firstAt.assign(mesh.vertices.size() + 1, 0);
  for (const Triangle& t : corners)
    for (const std::uint32_t v : t) ++firstAt[v + 1];
  std::partial_sum(firstAt.begin(), firstAt.end(), firstAt.begin());
  at.resize(firstAt.back());
  std::vector<std::uint32_t> next(firstAt.begin(), firstAt.end() - 1);
  for (std::uint32_t t = 0; t < corners.size(); ++t)
    for (const std::uint32_t v : corners[t]) at[next[v]++] = t;
  findOthers(places, mesh, threads);
}

void PieceNeighbours::findOthers(const std::vector<WallPlace>& places, const TriangleMesh& mesh,
                                 unsigned threads) {
  const BoundingTree tree(mesh);
  other.assign(places.size(), SurfaceTopology::kNone);
  constexpr std::size_t kChunk = 256;
  parallelFor((places.size() + kChunk - 1) / kChunk, threads, [&](std::size_t chunk) {
    for (std::size_t i = chunk * kChunk; i < std::min(places.size(), (chunk + 1) * kChunk); ++i) {
      if (places[i].kind != WallKind::wall) continue;
      PointHints hints;
      hints.enoughMm = 1e-9;
      const auto near = closestPoint(tree, places[i].other_P, hints);
      if (near) other[i] = tree.order()[near->triangle];
    }
  });
  firstFrom.assign(places.size() + 1, 0);
  for (const std::uint32_t o : other)
    if (o != SurfaceTopology::kNone) ++firstFrom[o + 1];
  std::partial_sum(firstFrom.begin(), firstFrom.end(), firstFrom.begin());
  from.resize(firstFrom.back());
  std::vector<std::uint32_t> next(firstFrom.begin(), firstFrom.end() - 1);
  for (std::uint32_t i = 0; i < other.size(); ++i)
    if (other[i] != SurfaceTopology::kNone) from[next[other[i]]++] = i;
}

}  // namespace swingroom
