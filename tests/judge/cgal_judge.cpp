#include "tests/judge/cgal_judge.h"

#include <CGAL/AABB_face_graph_triangle_primitive.h>
#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/manifoldness.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Side_of_triangle_mesh.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/intersections.h>
#include <CGAL/squared_distance_3.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <optional>
#include <stdexcept>
#include <vector>

namespace swingroom::judge {
namespace {

using Exact = CGAL::Exact_predicates_exact_constructions_kernel;
using Filtered = CGAL::Exact_predicates_inexact_constructions_kernel;
using Eigen::Vector3d;

template <typename Kernel>
typename Kernel::Point_3 pointOf(const Vector3d& p) {
  return {p.x(), p.y(), p.z()};
}

template <typename Kernel>
typename Kernel::Triangle_3 triangleOf(const Corners& t) {
  return {pointOf<Kernel>(t[0]), pointOf<Kernel>(t[1]), pointOf<Kernel>(t[2])};
}

/// The nearest double; without `exact` the kernel gives no more than 5 digits.
double rounded(const Exact::FT& number) {
  return CGAL::to_double(CGAL::exact(number));
}

/// The least of many exact numbers, to 1e-13 of it. Neighbours share the nearest edge or corner:
/// only what is less by more than rounding is worth the price of the exact number.
class Least {
 public:
  void offer(const Exact::FT& number) {
    const auto [atLeast, atMost] = CGAL::to_interval(number);
    if (atLeast >= atMost_ * (1 - 1e-13)) return;
    const double bound = atMost < atMost_ ? atMost : rounded(number);
    if (bound >= atMost_) return;
    number_ = number;
    atMost_ = bound;
  }

  double atMost() const { return atMost_; }
  double value() const { return rounded(number_); }

 private:
  Exact::FT number_;
  double atMost_ = std::numeric_limits<double>::infinity();
};

Corners cornersOf(const TriangleMesh& mesh, std::size_t triangle) {
  return {mesh.corner(triangle, 0), mesh.corner(triangle, 1), mesh.corner(triangle, 2)};
}

template <typename Kernel>
std::vector<typename Kernel::Triangle_3> trianglesOf(const TriangleMesh& mesh) {
  std::vector<typename Kernel::Triangle_3> triangles;
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    triangles.push_back(triangleOf<Kernel>(cornersOf(mesh, i)));
  }
  return triangles;
}

std::vector<Eigen::AlignedBox3d> boxesOf(const TriangleMesh& mesh) {
  std::vector<Eigen::AlignedBox3d> boxes;
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    Eigen::AlignedBox3d box;
    for (const Vector3d& corner : cornersOf(mesh, i)) box.extend(corner);
    boxes.push_back(box);
  }
  return boxes;
}

struct Candidate {
  double boxSquared;  ///< No more than the triangles' squared distance, but for rounding.
  std::size_t a, b;
};

/// All pairs, nearest boxes first.
std::vector<Candidate> candidates(const TriangleMesh& a, const TriangleMesh& b) {
  const auto boxesA = boxesOf(a), boxesB = boxesOf(b);
  std::vector<Candidate> pairs;
  pairs.reserve(boxesA.size() * boxesB.size());
  for (std::size_t i = 0; i < boxesA.size(); ++i) {
    for (std::size_t j = 0; j < boxesB.size(); ++j) {
      pairs.push_back({boxesA[i].squaredExteriorDistance(boxesB[j]), i, j});
    }
  }
  std::sort(pairs.begin(), pairs.end(),
            [](const Candidate& x, const Candidate& y) { return x.boxSquared < y.boxSquared; });
  return pairs;
}

/// None if a face does not fit to the others.
std::optional<CGAL::Surface_mesh<Filtered::Point_3>> halfEdgesOf(const TriangleMesh& mesh) {
  CGAL::Surface_mesh<Filtered::Point_3> surface;
  for (const Vector3d& vertex : mesh.vertices) surface.add_vertex(pointOf<Filtered>(vertex));
  using Vertex = CGAL::Surface_mesh<Filtered::Point_3>::Vertex_index;
  for (const auto& [a, b, c] : mesh.triangles) {
    if (surface.add_face(Vertex(a), Vertex(b), Vertex(c)) == surface.null_face()) return std::nullopt;
  }
  return surface;
}

CGAL::Surface_mesh<Filtered::Point_3> surfaceOf(const TriangleMesh& mesh) {
  CGAL::Surface_mesh<Filtered::Point_3> surface;
  for (const Vector3d& vertex : mesh.vertices) surface.add_vertex(pointOf<Filtered>(vertex));
  using Vertex = CGAL::Surface_mesh<Filtered::Point_3>::Vertex_index;
  for (const auto& [a, b, c] : mesh.triangles) {
    if (surface.add_face(Vertex(a), Vertex(b), Vertex(c)) == surface.null_face()) {
      throw std::invalid_argument("judge::sidesOf: the mesh is not manifold");
    }
  }
  if (!CGAL::is_closed(surface))
    throw std::invalid_argument("judge::sidesOf: the mesh is not closed");
  return surface;
}

}  // namespace

double squaredDistance(const Ends& a, const Ends& b) {
  const Exact::Segment_3 first(pointOf<Exact>(a[0]), pointOf<Exact>(a[1]));
  const Exact::Segment_3 second(pointOf<Exact>(b[0]), pointOf<Exact>(b[1]));
  return rounded(CGAL::squared_distance(first, second));
}

double squaredDistance(const Corners& a, const Corners& b) {
  return rounded(CGAL::squared_distance(triangleOf<Exact>(a), triangleOf<Exact>(b)));
}

double squaredDistance(const Vector3d& point, const Corners& triangle) {
  return rounded(CGAL::squared_distance(pointOf<Exact>(point), triangleOf<Exact>(triangle)));
}

double squaredDistance(const TriangleMesh& a, const TriangleMesh& b) {
  const auto trianglesA = trianglesOf<Exact>(a), trianglesB = trianglesOf<Exact>(b);
  Least least;
  for (const Candidate& pair : candidates(a, b)) {
    if (least.atMost() == 0 || pair.boxSquared * (1 - 1e-12) > least.atMost()) break;
    least.offer(CGAL::squared_distance(trianglesA[pair.a], trianglesB[pair.b]));
  }
  return least.value();
}

bool meet(const Corners& a, const Corners& b) {
  return CGAL::do_intersect(triangleOf<Filtered>(a), triangleOf<Filtered>(b));
}

bool surfacesMeet(const TriangleMesh& a, const TriangleMesh& b) {
  const auto trianglesA = trianglesOf<Filtered>(a), trianglesB = trianglesOf<Filtered>(b);
  for (const Candidate& pair : candidates(a, b)) {
    if (pair.boxSquared > 0) return false;
    if (CGAL::do_intersect(trianglesA[pair.a], trianglesB[pair.b])) return true;
  }
  return false;
}

std::vector<Side> sidesOf(const TriangleMesh& mesh, const std::vector<Vector3d>& points) {
  const auto surface = surfaceOf(mesh);
  const CGAL::Side_of_triangle_mesh<CGAL::Surface_mesh<Filtered::Point_3>, Filtered> side(surface);
  std::vector<Side> sides;
  for (const Vector3d& point : points) {
    const CGAL::Bounded_side found = side(pointOf<Filtered>(point));
    const bool isOn = found == CGAL::ON_BOUNDARY;
    sides.push_back(isOn                             ? Side::on
                    : found == CGAL::ON_BOUNDED_SIDE ? Side::inside
                                                     : Side::outside);
  }
  return sides;
}

std::vector<double> distancesTo(const TriangleMesh& mesh, const std::vector<Vector3d>& points) {
  using Surface = CGAL::Surface_mesh<Filtered::Point_3>;
  using Primitive = CGAL::AABB_face_graph_triangle_primitive<Surface>;
  const Surface surface = surfaceOf(mesh);
  CGAL::AABB_tree<CGAL::AABB_traits<Filtered, Primitive>> tree(faces(surface).first, faces(surface).second, surface);
  tree.accelerate_distance_queries();
  std::vector<double> distances;
  for (const Vector3d& point : points) distances.push_back(std::sqrt(tree.squared_distance(pointOf<Filtered>(point))));
  return distances;
}

Soundness soundnessOf(const TriangleMesh& mesh) {
  const auto surface = halfEdgesOf(mesh);
  if (!surface) return {};
  Soundness sound;
  sound.closed = CGAL::is_closed(*surface);
  sound.manifold = CGAL::is_valid_polygon_mesh(*surface);
  for (const auto vertex : vertices(*surface)) {
    if (CGAL::Polygon_mesh_processing::is_non_manifold_vertex(vertex, *surface)) sound.manifold = false;
  }
  std::vector<std::pair<CGAL::SM_Face_index, CGAL::SM_Face_index>> crossing;
  CGAL::Polygon_mesh_processing::self_intersections(*surface, std::back_inserter(crossing));
  sound.crossings = crossing.size();
  return sound;
}

double squaredDistance(const TriangleMesh& mesh, const Vector3d& point) {
  const Exact::Point_3 exactPoint = pointOf<Exact>(point);
  Least least;
  for (const auto& triangle : trianglesOf<Exact>(mesh)) {
    least.offer(CGAL::squared_distance(exactPoint, triangle));
  }
  return least.value();
}

}  // namespace swingroom::judge
