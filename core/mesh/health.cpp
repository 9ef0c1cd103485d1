#include "core/mesh/health.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <stdexcept>
#include <string>
#include <tuple>

#include "core/mesh/winding.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

/// Below this, mm2, a triangle is taken to have no area: a needle of 1 mm by the size of an atom.
constexpr double kLeastAreaMm2 = 1e-12;

/// One side of one triangle, passed from `from` to `to`.
struct Side {
  std::uint32_t low, high;  ///< The edge: its two vertices, ascending.
  std::uint32_t triangle;
  bool ascending;  ///< Passed from `low` to `high`.

  bool sameEdge(const Side& other) const { return low == other.low && high == other.high; }
};

bool hasEqualCorners(const Triangle& t) {
  return t[0] == t[1] || t[1] == t[2] || t[2] == t[0];
}

/// Sorted by `lowest`, a vertex, then by `before`. By counting: few belong to one vertex.
template <typename Item, typename Lowest, typename Before>
std::vector<Item> sortedByLowest(const std::vector<Item>& items, std::size_t vertices,
                                 const Lowest& lowest, const Before& before) {
  std::vector<std::size_t> ends(vertices + 1, 0);
  for (const Item& item : items) ++ends[lowest(item) + 1];
  std::partial_sum(ends.begin(), ends.end(), ends.begin());
  std::vector<Item> sorted(items.size());
  for (const Item& item : items) sorted[ends[lowest(item)]++] = item;
  std::size_t first = 0;
  for (std::size_t v = 0; v < vertices; ++v) {
    const auto begin = sorted.begin() + static_cast<std::ptrdiff_t>(first);
    std::sort(begin, sorted.begin() + static_cast<std::ptrdiff_t>(ends[v]), before);
    first = ends[v];
  }
  return sorted;
}

/// All sides, those of one edge next to each other. Triangles with two equal corners are left out:
/// they pass their one edge both ways, so nothing that is asked of edges depends on them.
std::vector<Side> sidesByEdge(const TriangleMesh& mesh) {
  std::vector<Side> sides;
  sides.reserve(3 * mesh.triangles.size());
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    const Triangle& triangle = mesh.triangles[t];
    if (hasEqualCorners(triangle)) continue;
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t from = triangle[i], to = triangle[(i + 1) % 3];
      sides.push_back({std::min(from, to), std::max(from, to), t, from < to});
    }
  }
  return sortedByLowest(
      sides, mesh.vertices.size(), [](const Side& side) { return side.low; },
      [](const Side& a, const Side& b) {
        return std::tie(a.high, a.triangle) < std::tie(b.high, b.triangle);
      });
}

/// Sets of triangles that grow together.
class Components {
 public:
  explicit Components(std::size_t count) : parents_(count) {
    std::iota(parents_.begin(), parents_.end(), 0u);
  }

  std::uint32_t rootOf(std::uint32_t i) {
    while (parents_[i] != i) i = parents_[i] = parents_[parents_[i]];
    return i;
  }

  /// The lowest member stays the root, so that shells come in the order of their first triangles.
  void join(std::uint32_t i, std::uint32_t j) {
    const std::uint32_t a = rootOf(i), b = rootOf(j);
    parents_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::uint32_t> parents_;
};

struct EdgeCounts {
  std::size_t open = 0;
  std::size_t nonManifold = 0;
};

/// Counts the edges, joins the triangles at each and marks the roots of triangles at an edge that
/// is not passed as often one way as the other.
EdgeCounts walkEdges(const std::vector<Side>& sides, Components& components,
                     std::vector<std::uint32_t>& atUnbalancedEdge) {
  EdgeCounts counts;
  for (auto first = sides.begin(); first != sides.end();) {
    auto end = first;
    int balance = 0;
    for (; end != sides.end() && end->sameEdge(*first); ++end) {
      balance += end->ascending ? 1 : -1;
      components.join(first->triangle, end->triangle);
    }
    const auto users = end - first;
    if (users == 1) ++counts.open;
    if (users >= 3) ++counts.nonManifold;
    if (balance != 0) atUnbalancedEdge.push_back(first->triangle);
    first = end;
  }
  return counts;
}

double signedVolume(const TriangleMesh& mesh, const Shell& shell) {
  // From one of its own corners: no digits are lost for a shell far from the origin.
  const Vector3d& apex = mesh.corner(shell.triangles.front(), 0);
  double sixVolumes = 0;
  double sixAmounts = 0;
  for (const std::uint32_t t : shell.triangles) {
    const Vector3d a = mesh.corner(t, 0) - apex;
    const double det = a.dot((mesh.corner(t, 1) - apex).cross(mesh.corner(t, 2) - apex));
    sixVolumes += det;
    sixAmounts += std::abs(det);
  }
  // A sheet with two sides has no volume; the sign of its rounding must not make it inside-out.
  return std::abs(sixVolumes) > 1e-13 * sixAmounts ? sixVolumes / 6 : 0;
}

std::vector<Shell> shellsOf(const TriangleMesh& mesh, Components& components,
                            const std::vector<std::uint32_t>& atUnbalancedEdge) {
  std::vector<Shell> shells;
  std::vector<std::size_t> shellOfRoot(mesh.triangles.size());
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    if (hasEqualCorners(mesh.triangles[t])) continue;
    const std::uint32_t root = components.rootOf(t);
    if (root == t) {
      shellOfRoot[t] = shells.size();
      shells.push_back({{}, true, 0});
    }
    shells[shellOfRoot[root]].triangles.push_back(t);
  }
  for (const std::uint32_t t : atUnbalancedEdge) {
    shells[shellOfRoot[components.rootOf(t)]].closed = false;
  }
  for (Shell& shell : shells) {
    if (shell.closed) shell.volumeMm3 = signedVolume(mesh, shell);
  }
  return shells;
}

double areaOf(const TriangleMesh& mesh, std::size_t t) {
  const Vector3d& a = mesh.corner(t, 0);
  return (mesh.corner(t, 1) - a).cross(mesh.corner(t, 2) - a).norm() / 2;
}

std::size_t countRepeated(const TriangleMesh& mesh) {
  std::vector<Triangle> sorted = mesh.triangles;
  for (Triangle& triangle : sorted) std::sort(triangle.begin(), triangle.end());
  sorted = sortedByLowest(
      sorted, mesh.vertices.size(), [](const Triangle& triangle) { return triangle[0]; },
      std::less<>());
  const auto end = std::unique(sorted.begin(), sorted.end());
  return static_cast<std::size_t>(sorted.end() - end);
}

/// Middle of the shell's largest triangle: unlike its corners, it hardly ever lies on another
/// shell.
Vector3d pointOn(const TriangleMesh& mesh, const Shell& shell) {
  const std::uint32_t largest = *std::max_element(
      shell.triangles.begin(), shell.triangles.end(),
      [&](std::uint32_t a, std::uint32_t b) { return areaOf(mesh, a) < areaOf(mesh, b); });
  return (mesh.corner(largest, 0) + mesh.corner(largest, 1) + mesh.corner(largest, 2)) / 3;
}

/// A shell that faces inwards is the wall of a cavity if the other shells make it stand in solid.
std::size_t countInsideOut(const TriangleMesh& mesh, const std::vector<Shell>& shells) {
  constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  std::vector<std::size_t> questionOf(shells.size(), kNone);
  std::vector<Vector3d> points;
  for (std::size_t s = 0; s < shells.size(); ++s) {
    if (!shells[s].closed || shells[s].volumeMm3 >= 0) continue;
    questionOf[s] = points.size();
    points.push_back(pointOn(mesh, shells[s]));
  }
  if (points.empty()) return 0;
  const WindingCounter counter(points);
  std::vector<int> windings(points.size(), 0);
  for (std::size_t s = 0; s < shells.size(); ++s) {
    if (!shells[s].closed) continue;
    const bool asked = questionOf[s] != kNone;
    const int others = asked ? windings[questionOf[s]] : 0;
    counter.add(mesh, shells[s].triangles, windings);
    if (asked) windings[questionOf[s]] = others;  // Its own surface does not count.
  }
  return static_cast<std::size_t>(
      std::count_if(windings.begin(), windings.end(), [](int winding) { return winding < 1; }));
}

void requireIndicesInRange(const TriangleMesh& mesh) {
  for (const Triangle& triangle : mesh.triangles) {
    const std::uint32_t highest = std::max({triangle[0], triangle[1], triangle[2]});
    if (highest < mesh.vertices.size()) continue;
    throw std::invalid_argument("examine: a triangle names vertex " + std::to_string(highest) +
                                " of " + std::to_string(mesh.vertices.size()));
  }
}

}  // namespace

bool MeshHealth::closed() const {
  return !shells.empty() &&
         std::all_of(shells.begin(), shells.end(), [](const Shell& shell) { return shell.closed; });
}

std::vector<Shell> shellsOf(const TriangleMesh& mesh) {
  requireIndicesInRange(mesh);
  Components components(mesh.triangles.size());
  std::vector<std::uint32_t> atUnbalancedEdge;
  walkEdges(sidesByEdge(mesh), components, atUnbalancedEdge);
  return shellsOf(mesh, components, atUnbalancedEdge);
}

MeshHealth examine(const TriangleMesh& mesh) {
  requireIndicesInRange(mesh);
  MeshHealth health;
  Components components(mesh.triangles.size());
  std::vector<std::uint32_t> atUnbalancedEdge;
  const EdgeCounts edges = walkEdges(sidesByEdge(mesh), components, atUnbalancedEdge);
  health.openEdges = edges.open;
  health.nonManifoldEdges = edges.nonManifold;
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    if (hasEqualCorners(mesh.triangles[t]) || areaOf(mesh, t) < kLeastAreaMm2) {
      ++health.zeroAreaTriangles;
    }
  }
  health.repeatedTriangles = countRepeated(mesh);
  health.shells = shellsOf(mesh, components, atUnbalancedEdge);
  for (const Shell& shell : health.shells) health.volumeMm3 += shell.volumeMm3;
  health.insideOutShells = countInsideOut(mesh, health.shells);
  return health;
}

}  // namespace swingroom
