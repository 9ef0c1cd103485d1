#include "tests/judge/cgal_remesh.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/detect_features.h>
#include <CGAL/Polygon_mesh_processing/remesh.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/Surface_mesh_simplification/Policies/Edge_collapse/Count_ratio_stop_predicate.h>
#include <CGAL/Surface_mesh_simplification/edge_collapse.h>

namespace swingroom::judge {
namespace {

using RemeshKernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using RemeshSurface = CGAL::Surface_mesh<RemeshKernel::Point_3>;
namespace pmp = CGAL::Polygon_mesh_processing;

/// Without faces if the mesh is no manifold: some face then finds no place.
RemeshSurface toRemesh(const TriangleMesh& mesh) {
  RemeshSurface surface;
  for (const auto& v : mesh.vertices) surface.add_vertex({v.x(), v.y(), v.z()});
  for (const Triangle& t : mesh.triangles) {
    const auto face =
        surface.add_face(RemeshSurface::Vertex_index(t[0]), RemeshSurface::Vertex_index(t[1]),
                         RemeshSurface::Vertex_index(t[2]));
    if (face == RemeshSurface::null_face()) return {};
  }
  return surface;
}

TriangleMesh fromRemesh(RemeshSurface& surface) {
  surface.collect_garbage();
  TriangleMesh mesh;
  for (const auto v : surface.vertices()) {
    const auto& p = surface.point(v);
    mesh.vertices.emplace_back(p.x(), p.y(), p.z());
  }
  for (const auto f : surface.faces()) {
    Triangle triangle{};
    std::size_t i = 0;
    for (const auto v : surface.vertices_around_face(surface.halfedge(f))) {
      triangle[i++] = static_cast<std::uint32_t>(v.idx());
    }
    mesh.triangles.push_back(triangle);
  }
  return mesh;
}

}  // namespace

TriangleMesh remeshed(const TriangleMesh& mesh, double edgeMm) {
  RemeshSurface surface = toRemesh(mesh);
  if (surface.number_of_faces() == 0) return {};
  auto sharp = get(CGAL::edge_is_feature, surface);
  pmp::detect_sharp_edges(surface, 40, sharp);
  pmp::isotropic_remeshing(surface.faces(), edgeMm, surface,
                           pmp::parameters::number_of_iterations(2)
                               .edge_is_constrained_map(sharp)
                               .collapse_constraints(false)
                               .protect_constraints(false));
  return fromRemesh(surface);
}

TriangleMesh decimated(const TriangleMesh& mesh, double share) {
  RemeshSurface surface = toRemesh(mesh);
  if (surface.number_of_faces() == 0) return {};
  CGAL::Surface_mesh_simplification::Count_ratio_stop_predicate<RemeshSurface> stop(share);
  CGAL::Surface_mesh_simplification::edge_collapse(surface, stop);
  return fromRemesh(surface);
}

}  // namespace swingroom::judge
