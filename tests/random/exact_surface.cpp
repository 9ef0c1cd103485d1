#include "tests/random/exact_surface.h"

#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/triangulate_faces.h>
#include <CGAL/Side_of_triangle_mesh.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/convex_hull_3.h>
#include <CGAL/intersections.h>
#include <CGAL/squared_distance_3.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace swingroom::random_suite {
namespace {

using Exact = CGAL::Exact_predicates_exact_constructions_kernel;
using Filtered = CGAL::Exact_predicates_inexact_constructions_kernel;
using CgalMesh = CGAL::Surface_mesh<Filtered::Point_3>;
using InsideTest = CGAL::Side_of_triangle_mesh<CgalMesh, Filtered>;
using Eigen::AlignedBox3d;
using Eigen::Vector3d;
using Corners = std::array<Vector3d, 3>;

template <typename Kernel>
typename Kernel::Point_3 cgalPoint(const Vector3d& p) {
  return {p.x(), p.y(), p.z()};
}
template <typename Kernel>
typename Kernel::Triangle_3 cgalTriangle(const Corners& t) {
  return {cgalPoint<Kernel>(t[0]), cgalPoint<Kernel>(t[1]), cgalPoint<Kernel>(t[2])};
}

CgalMesh cgalMesh(const TriangleMesh& mesh) {
  CgalMesh surface;
  for (const Vector3d& v : mesh.vertices) surface.add_vertex(cgalPoint<Filtered>(v));
  using Vertex = CgalMesh::Vertex_index;
  for (const auto& [a, b, c] : mesh.triangles) {
    if (surface.add_face(Vertex(a), Vertex(b), Vertex(c)) == CgalMesh::null_face()) {
      throw std::invalid_argument("ExactSurface: the mesh is not manifold");
    }
  }
  if (!CGAL::is_closed(surface))
    throw std::invalid_argument("ExactSurface: the mesh is not closed");
  return surface;
}

std::vector<Vector3d> cornerOfEachShell(const TriangleMesh& mesh) {
  std::vector<std::uint32_t> root(mesh.vertices.size());
  std::iota(root.begin(), root.end(), 0u);
  const auto find = [&](std::uint32_t v) {
    while (root[v] != v) v = root[v] = root[root[v]];
    return v;
  };
  for (const auto& [a, b, c] : mesh.triangles) root[find(b)] = find(a), root[find(c)] = find(a);
  std::vector<Vector3d> corners;
  for (std::uint32_t v = 0; v < root.size(); ++v) {
    if (find(v) == v) corners.push_back(mesh.vertices[v]);
  }
  return corners;
}

std::vector<Corners> placedTriangles(const TriangleMesh& mesh, const Pose& X) {
  std::vector<Corners> triangles;
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    triangles.push_back({X * mesh.corner(i, 0), X * mesh.corner(i, 1), X * mesh.corner(i, 2)});
  }
  return triangles;
}

AlignedBox3d boxOf(const Corners& t) {
  AlignedBox3d box(t[0]);
  return box.extend(t[1]).extend(t[2]);
}

}  // namespace

struct ExactSurface::Engine {
  explicit Engine(const TriangleMesh& given)
      : mesh(given),
        triangles(placedTriangles(given, Pose::Identity())),
        bounds(boundsOf(given)),
        corners(cornerOfEachShell(given)),
        surface(cgalMesh(given)),
        inside(surface) {
    for (const Corners& t : triangles) boxes.push_back(boxOf(t));
  }

  TriangleMesh mesh;
  std::vector<Corners> triangles;
  std::vector<AlignedBox3d> boxes;
  AlignedBox3d bounds;
  std::vector<Vector3d> corners;
  CgalMesh surface;
  InsideTest inside;
};

namespace {

/// Calls `look(triangle of a, triangle of b)` for all pairs whose boxes are within `reachMm`, until
/// it returns true.
template <typename Look>
bool anyNearPair(const ExactSurface::Engine& a, const ExactSurface::Engine& b, const Pose& X_AB,
                 double reachMm, const Look& look) {
  const double reach = reachMm + 1e-9 * (1 + a.bounds.diagonal().norm());
  for (const Corners& inB : b.triangles) {
    const Corners onB = {X_AB * inB[0], X_AB * inB[1], X_AB * inB[2]};
    const AlignedBox3d box = boxOf(onB);
    if (box.squaredExteriorDistance(a.bounds) > reach * reach) continue;
    for (std::size_t i = 0; i < a.triangles.size(); ++i) {
      if (box.squaredExteriorDistance(a.boxes[i]) > reach * reach) continue;
      if (look(a.triangles[i], onB)) return true;
    }
  }
  return false;
}

/// The corner farthest along `n`.
const Vector3d& farthest(const Corners& t, const Vector3d& n) {
  const double d0 = n.dot(t[0]), d1 = n.dot(t[1]), d2 = n.dot(t[2]);
  return d0 >= d1 ? (d0 >= d2 ? t[0] : t[2]) : (d1 >= d2 ? t[1] : t[2]);
}

/// The triangles are at least this far apart, up to rounding: the best of some separating
/// directions, each nearer to the best of all (E. G. Gilbert, SIAM J. Control 4(1), 1966). Stops
/// above `enough`.
double apartAtLeast(const Corners& a, const Corners& b, double enough) {
  Vector3d v = (b[0] + b[1] + b[2] - a[0] - a[1] - a[2]) / 3;
  double best = 0;
  for (int i = 0; i < 40; ++i) {
    const double length = v.norm();
    if (length == 0) break;
    const Vector3d w = farthest(b, -v) - farthest(a, v);
    best = std::max(best, v.dot(w) / length);
    if (best > enough || length - best < 1e-12 * length) break;
    const Vector3d way = w - v;
    v += std::clamp(-v.dot(way) / way.squaredNorm(), 0.0, 1.0) * way;
  }
  return best;
}

struct Candidate {
  double boxSquared;
  const Corners* a;
  Corners b;
};

}  // namespace

ExactSurface::ExactSurface(const TriangleMesh& mesh)
    : engine_(std::make_shared<const Engine>(mesh)) {}

const TriangleMesh& ExactSurface::mesh() const {
  return engine_->mesh;
}
const std::vector<Vector3d>& ExactSurface::shellCorners() const {
  return engine_->corners;
}

bool ExactSurface::contains(const Vector3d& p) const {
  if (!engine_->bounds.contains(p)) return false;
  return engine_->inside(cgalPoint<Filtered>(p)) == CGAL::ON_BOUNDED_SIDE;
}

bool meets(const ExactSurface& a, const ExactSurface& b, const Pose& X_AB) {
  return anyNearPair(*a.engine_, *b.engine_, X_AB, 0, [](const Corners& onA, const Corners& onB) {
    return CGAL::do_intersect(cgalTriangle<Filtered>(onA), cgalTriangle<Filtered>(onB));
  });
}

double exactGap(const ExactSurface& a, const ExactSurface& b, const Pose& X_AB, double guessMm) {
  if (meets(a, b, X_AB)) return 0;
  for (double reach = guessMm * (1 + 1e-9) + 1e-9;; reach *= 2) {
    std::vector<Candidate> pairs;
    anyNearPair(*a.engine_, *b.engine_, X_AB, reach, [&](const Corners& onA, const Corners& onB) {
      pairs.push_back({boxOf(onA).squaredExteriorDistance(boxOf(onB)), &onA, onB});
      return false;
    });
    std::sort(pairs.begin(), pairs.end(),
              [](const Candidate& x, const Candidate& y) { return x.boxSquared < y.boxSquared; });
    double least = std::numeric_limits<double>::infinity();
    for (const Candidate& pair : pairs) {
      if (pair.boxSquared * (1 - 1e-12) > least) break;
      const double known = std::min(reach, std::sqrt(least)) * (1 + 1e-9) + 1e-9;
      if (apartAtLeast(*pair.a, pair.b, known) > known) continue;
      const Exact::FT squared =
          CGAL::squared_distance(cgalTriangle<Exact>(*pair.a), cgalTriangle<Exact>(pair.b));
      const auto [atLeast, atMost] = CGAL::to_interval(squared);
      if (atLeast >= least * (1 - 1e-12)) continue;
      // The exact number costs much, and is needed only where cancellation leaves the interval
      // wide.
      const bool isNarrow = atMost - atLeast < 1e-12 * atLeast;
      least = std::min(least, isNarrow ? atMost : CGAL::to_double(CGAL::exact(squared)));
    }
    if (std::sqrt(least) <= reach) return std::sqrt(least);
  }
}

TriangleMesh convexHullOf(const std::vector<Vector3d>& points) {
  std::vector<Filtered::Point_3> cgalPoints;
  for (const Vector3d& p : points) cgalPoints.push_back(cgalPoint<Filtered>(p));
  CgalMesh hull;
  CGAL::convex_hull_3(cgalPoints.begin(), cgalPoints.end(), hull);
  CGAL::Polygon_mesh_processing::triangulate_faces(hull);
  TriangleMesh mesh;
  for (const auto v : hull.vertices()) {
    const auto& p = hull.point(v);
    mesh.vertices.emplace_back(p.x(), p.y(), p.z());
  }
  for (const auto f : hull.faces()) {
    Triangle triangle{};
    std::size_t k = 0;
    for (const auto v : vertices_around_face(hull.halfedge(f), hull)) triangle[k++] = v;
    mesh.triangles.push_back(triangle);
  }
  return mesh;
}

}  // namespace swingroom::random_suite
