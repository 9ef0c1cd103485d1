#include "core/print/set/hollows.h"

#include <algorithm>
#include <cmath>
#include <queue>

#include "core/mesh/health.h"
#include "core/print/set/bed_fit.h"
#include "core/print/set/solid_grid.h"

namespace swingroom {
namespace {

/// Signed volume and first moment of one shell.
Hollow shellHollow(const TriangleMesh& mesh, const Shell& shell) {
  Hollow hollow;
  Vector3d moment = Vector3d::Zero();
  double volume = 0;
  for (const std::uint32_t t : shell.triangles) {
    const Vector3d &a = mesh.corner(t, 0), &b = mesh.corner(t, 1), &c = mesh.corner(t, 2);
    const double part = a.dot(b.cross(c)) / 6;
    volume += part;
    moment += part * (a + b + c) / 4;
  }
  hollow.volumeMm3 = std::abs(volume);
  if (volume != 0) hollow.middle_P = moment / volume;
  return hollow;
}

void addClosed(const TriangleMesh& mesh, std::vector<Hollow>& hollows) {
  const MeshHealth health = examine(mesh);
  // Lone shells that look inwards are faults of the mesh, not cavities.
  if (health.insideOutShells > 0) return;
  for (const Shell& shell : health.shells) {
    if (shell.closed && shell.volumeMm3 < 0) hollows.push_back(shellHollow(mesh, shell));
  }
}

/// Cells at most `reach` cells from a full one (middle to middle), the full ones too.
std::vector<char> hollowGrown(const SolidGrid& grid, double reach) {
  std::vector<char> grown = grid.full;
  std::vector<std::array<long, 3>> ball;
  const long r = static_cast<long>(std::floor(reach));
  for (long z = -r; z <= r; ++z) {
    for (long y = -r; y <= r; ++y) {
      for (long x = -r; x <= r; ++x) {
        if (static_cast<double>(x * x + y * y + z * z) <= reach * reach) ball.push_back({x, y, z});
      }
    }
  }
  const std::array<long, 3> n{static_cast<long>(grid.counts[0]), static_cast<long>(grid.counts[1]),
                              static_cast<long>(grid.counts[2])};
  for (std::size_t cell = 0; cell < grid.full.size(); ++cell) {
    if (!grid.full[cell]) continue;
    bool atSurface = false;
    grid.forNeighbours(cell, [&](std::size_t next) { atSurface |= !grid.full[next]; });
    if (!atSurface) continue;
    const auto index = static_cast<long>(cell);
    const long cx = index % n[0], cy = index / n[0] % n[1], cz = index / n[0] / n[1];
    for (const auto& [dx, dy, dz] : ball) {
      const long x = cx + dx, y = cy + dy, z = cz + dz;
      if (x < 0 || y < 0 || z < 0 || x >= n[0] || y >= n[1] || z >= n[2]) continue;
      grown[static_cast<std::size_t>((z * n[1] + y) * n[0] + x)] = 1;
    }
  }
  return grown;
}

/// All cells with `free` that hang together with `first`, marked as not free.
std::vector<std::size_t> hollowPiece(const SolidGrid& grid, std::vector<char>& taken,
                                     std::size_t first) {
  std::vector<std::size_t> piece{first};
  taken[first] = 1;
  for (std::size_t i = 0; i < piece.size(); ++i) {
    grid.forNeighbours(piece[i], [&](std::size_t next) {
      if (taken[next]) return;
      taken[next] = 1;
      piece.push_back(next);
    });
  }
  return piece;
}

void addNarrowNecked(const TriangleMesh& mesh, double escapeHoleMm, std::vector<Hollow>& hollows) {
  const double longest = boundsOf(mesh).sizes().maxCoeff();
  const double cell = std::max(escapeHoleMm / 6, longest / 160);
  if (!(cell < escapeHoleMm / 3)) return;
  const SolidGrid grid = solidGrid(mesh, Eigen::Matrix3d::Identity(), cell);
  // A cell's half diagonal less: what is called shut in is so for the true hole too.
  const double reach = escapeHoleMm / 2 / cell - std::sqrt(3.0) / 2;
  std::vector<char> taken = hollowGrown(grid, reach);
  // Outside: the rim of the grid may be within reach of the part, so from all of it.
  for (std::size_t cellAt = 0; cellAt < taken.size(); ++cellAt) {
    std::size_t neighbours = 0;
    grid.forNeighbours(cellAt, [&](std::size_t) { ++neighbours; });
    if (neighbours < 6 && !taken[cellAt]) hollowPiece(grid, taken, cellAt);
  }
  for (std::size_t cellAt = 0; cellAt < taken.size(); ++cellAt) {
    if (taken[cellAt]) continue;
    const std::vector<std::size_t> piece = hollowPiece(grid, taken, cellAt);
    Hollow hollow;
    hollow.kind = Hollow::Kind::narrowNeck;
    for (const std::size_t each : piece) hollow.middle_P += grid.middleOf(each);
    hollow.middle_P /= static_cast<double>(piece.size());
    hollow.volumeMm3 = static_cast<double>(piece.size()) * cell * cell * cell;
    // A closed cavity is told exactly already.
    const auto same = std::find_if(hollows.begin(), hollows.end(), [&](const Hollow& closed) {
      return closed.kind == Hollow::Kind::closed &&
             (closed.middle_P - hollow.middle_P).norm() < 2 * cell &&
             hollow.volumeMm3 <= closed.volumeMm3;
    });
    if (same == hollows.end()) hollows.push_back(hollow);
  }
}

}  // namespace

std::vector<Hollow> hollowsOf(const TriangleMesh& mesh, double escapeHoleMm) {
  std::vector<Hollow> hollows;
  if (mesh.triangles.empty() || !(escapeHoleMm > 0)) return hollows;
  addClosed(mesh, hollows);
  addNarrowNecked(mesh, escapeHoleMm, hollows);
  std::stable_sort(hollows.begin(), hollows.end(),
                   [](const Hollow& a, const Hollow& b) { return a.volumeMm3 > b.volumeMm3; });
  return hollows;
}

double trappedVolume(const TriangleMesh& mesh, const Eigen::Matrix3d& R_BP, bool onPlate) {
  const double longest = sizeOf(mesh, R_BP).maxCoeff();
  if (!(longest > 0)) return 0;
  const SolidGrid grid = solidGrid(mesh, R_BP, longest / 64);
  const std::size_t layer = grid.counts[0] * grid.counts[1];
  // The layer up to which must be printed before a cell is open to the outside; at least its own.
  constexpr std::size_t kShut = static_cast<std::size_t>(-1);
  std::vector<std::size_t> openFrom(grid.full.size(), kShut);
  using Entry = std::pair<std::size_t, std::size_t>;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> next;
  const auto reach = [&](std::size_t cell, std::size_t level) {
    std::size_t own = std::max(level, cell / layer);
    // On the plate the layer below the part is the plate: what opens there opens when all is done.
    if (onPlate && cell < layer) own = grid.counts[2];
    if (grid.full[cell] || openFrom[cell] <= own) return;
    openFrom[cell] = own;
    next.emplace(own, cell);
  };
  for (std::size_t cell = 0; cell < grid.full.size(); ++cell) {
    const std::size_t x = cell % grid.counts[0], y = cell / grid.counts[0] % grid.counts[1];
    if (x == 0 || y == 0 || x + 1 == grid.counts[0] || y + 1 == grid.counts[1]) reach(cell, 0);
  }
  while (!next.empty()) {
    const auto [level, cell] = next.top();
    next.pop();
    if (level > openFrom[cell]) continue;
    grid.forNeighbours(cell, [&, level = level](std::size_t other) { reach(other, level); });
  }
  std::size_t trapped = 0;
  for (std::size_t cell = 0; cell < grid.full.size(); ++cell) {
    if (cell < layer) continue;
    // Closed cavities are told apart. One layer of doubt: slopes in steps.
    trapped += !grid.full[cell] && openFrom[cell] != kShut && openFrom[cell] > cell / layer + 1;
  }
  return static_cast<double>(trapped) * std::pow(grid.cellMm, 3);
}

}  // namespace swingroom
