#include "core/room/space/lattice_surface.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace swingroom {
namespace {

constexpr std::size_t kChunk = 512;
constexpr std::size_t kLooks = 1 << 13;      ///< Of tetrahedra between two looks whether to stop.
constexpr std::size_t kSorted = 1 << 16;  ///< Tetrahedra whose edges are sorted at once.

using Tetrahedron = std::array<std::uint32_t, 4>;

struct LatticeEdge {
  std::uint32_t freeNode, otherNode;
  auto operator<=>(const LatticeEdge&) const = default;
};

/// Round each edge between two corners stand four middles, and four tetrahedra between them: all that there are.
template <typename Visit>
void forTetrahedra(const SpaceGrid& grid, std::uint32_t layer, const Visit& visit) {
  const auto [ni, nj, nk] = grid.cubes();
  for (std::uint32_t j = 1; j + 1 < nj; ++j) {
    for (std::uint32_t i = 1; i + 1 < ni; ++i) {
      const std::uint32_t cube = grid.cubeAt(i, j, layer);
      const std::array<std::uint32_t, 3> strides{1, ni, ni * nj};
      for (std::size_t d = 0; d < 3; ++d) {
        const std::uint32_t u = strides[(d + 1) % 3], v = strides[(d + 2) % 3];
        const std::array<std::uint32_t, 4> ring{cube, cube - u, cube - u - v, cube - v};
        for (std::size_t r = 0; r < 4; ++r) {
          visit(Tetrahedron{cube, cube + strides[d], grid.middleOf(ring[r]), grid.middleOf(ring[(r + 1) % 4])});
        }
      }
    }
  }
}

class Marching {
 public:
  Marching(const SpaceValues& values, const SpaceRegions& regions) : values_(values), regions_(regions) {}

  LatticeSurface run(unsigned threads, StageProgress& progress) {
    findCrossed(threads, progress);
    if (progress.cancelled()) return {};
    const std::vector<LatticeEdge> edges = edgesOf(threads, progress);
    LatticeSurface surface;
    if (progress.cancelled()) return surface;
    surface.mesh.vertices.resize(edges.size());
    surface.spareMm.resize(edges.size());
    const std::size_t chunks = (edges.size() + kChunk - 1) / kChunk;
    progress.stage(chunks, 25);
    parallelFor(chunks, threads, [&](std::size_t c) {
      if (!progress.cancelled()) {
        for (std::size_t e = c * kChunk; e < std::min(edges.size(), (c + 1) * kChunk); ++e) {
          const EdgePoint at = values_.edgeOf(edges[e].freeNode, edges[e].otherNode);
          surface.mesh.vertices[e] = at.point;
          surface.spareMm[e] = at.spareMm;
        }
      }
      progress.advance();
    });
    if (progress.cancelled()) return surface;
    for (std::size_t t = 0; t < crossed_.size(); ++t) {
      if (t % kLooks == 0 && progress.cancelled()) return surface;
      addFaces(crossed_[t], edges, surface);
    }
    return surface;
  }

 private:
  bool isFree(std::uint32_t node) const { return regions_.at(node) != SpaceRegions::kBlocked; }

  void findCrossed(unsigned threads, StageProgress& progress) {
    const SpaceGrid& grid = values_.grid();
    const std::uint32_t layers = grid.cubes()[2];
    std::vector<std::vector<Tetrahedron>> found(layers);
    progress.stage(layers, 3);
    parallelFor(layers, threads, [&](std::size_t layer) {
      progress.advance();
      if (layer == 0 || layer + 1 >= layers || progress.cancelled()) return;
      forTetrahedra(grid, static_cast<std::uint32_t>(layer), [&](const Tetrahedron& t) {
        const int count = isFree(t[0]) + isFree(t[1]) + isFree(t[2]) + isFree(t[3]);
        if (count > 0 && count < 4) found[layer].push_back(t);
      });
    });
    for (const auto& some : found) crossed_.insert(crossed_.end(), some.begin(), some.end());
  }

  /// In order, each once.
  std::vector<LatticeEdge> edgesOf(unsigned threads, const StageProgress& progress) const {
    std::vector<std::vector<LatticeEdge>> some((crossed_.size() + kSorted - 1) / kSorted);
    parallelFor(some.size(), threads, [&](std::size_t s) {
      if (!progress.cancelled()) some[s] = edgesAt(s * kSorted, std::min(crossed_.size(), (s + 1) * kSorted));
    });
    for (; some.size() > 1; some.resize((some.size() + 1) / 2)) {
      parallelFor(some.size() / 2, threads, [&](std::size_t s) {
        if (!progress.cancelled()) some[s] = merged(some[s], std::exchange(some[some.size() - 1 - s], {}));
      });
    }
    return some.empty() ? std::vector<LatticeEdge>() : std::move(some.front());
  }

  std::vector<LatticeEdge> edgesAt(std::size_t from, std::size_t end) const {
    std::vector<LatticeEdge> edges;
    edges.reserve((end - from) * 4);
    for (std::size_t i = from; i < end; ++i) {
      for (const std::uint32_t a : crossed_[i]) {
        if (!isFree(a)) continue;
        for (const std::uint32_t b : crossed_[i]) {
          if (!isFree(b)) edges.push_back({a, b});
        }
      }
    }
    std::sort(edges.begin(), edges.end());
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
    return edges;
  }

  static std::vector<LatticeEdge> merged(const std::vector<LatticeEdge>& a, const std::vector<LatticeEdge>& b) {
    std::vector<LatticeEdge> both;
    both.reserve(a.size() + b.size());
    std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(both));
    return both;
  }

  void addFaces(const Tetrahedron& t, const std::vector<LatticeEdge>& edges, LatticeSurface& surface) const {
    std::vector<std::uint32_t> free, other;
    for (const std::uint32_t node : t) (isFree(node) ? free : other).push_back(node);
    const auto corner = [&](std::size_t f, std::size_t o) {
      const auto place = std::lower_bound(edges.begin(), edges.end(), LatticeEdge{free[f], other[o]});
      return static_cast<std::uint32_t>(place - edges.begin());
    };
    std::vector<std::uint32_t> face;
    if (free.size() == 2) {
      face = {corner(0, 0), corner(0, 1), corner(1, 1), corner(1, 0)};
    } else {
      for (std::size_t i = 0; i < 3; ++i) face.push_back(free.size() == 1 ? corner(0, i) : corner(i, 0));
    }
    if (looksInwards(free, other)) std::reverse(face.begin(), face.end());
    const auto& at = surface.mesh.vertices;
    const auto add = [&](std::uint32_t a, std::uint32_t b, std::uint32_t c) {
      surface.mesh.triangles.push_back({a, b, c});
      surface.regions.push_back(regions_.at(free[0]));
    };
    if (face.size() == 3) return add(face[0], face[1], face[2]);
    if ((at[face[0]] - at[face[2]]).squaredNorm() <= (at[face[1]] - at[face[3]]).squaredNorm()) {
      add(face[0], face[1], face[2]);
      add(face[0], face[2], face[3]);
    } else {
      add(face[0], face[1], face[3]);
      add(face[1], face[2], face[3]);
    }
  }

  /// Of the face through the edges' middles, in the order of `addFaces`.
  bool looksInwards(const std::vector<std::uint32_t>& free, const std::vector<std::uint32_t>& other) const {
    const SpaceGrid& grid = values_.grid();
    const auto middle = [&](std::size_t f, std::size_t o) -> Vector3d {
      return 0.5 * (grid.positionOf(free[f]) + grid.positionOf(other[o]));
    };
    std::array<Vector3d, 3> p;
    if (free.size() == 2) {
      p = {middle(0, 0), middle(0, 1), middle(1, 1)};
    } else {
      for (std::size_t i = 0; i < 3; ++i) p[i] = free.size() == 1 ? middle(0, i) : middle(i, 0);
    }
    const Vector3d outwards = grid.positionOf(other[0]) - grid.positionOf(free[0]);
    return (p[1] - p[0]).cross(p[2] - p[0]).dot(outwards) < 0;
  }

  const SpaceValues& values_;
  const SpaceRegions& regions_;
  std::vector<Tetrahedron> crossed_;
};

}  // namespace

LatticeSurface surfaceOf(const SpaceValues& values, const SpaceRegions& regions, unsigned threads,
                         StageProgress& progress) {
  return Marching(values, regions).run(threads, progress);
}

}  // namespace swingroom
