#include "core/files/step/weld_faces.h"

#include <BRep_Tool.hxx>
#include <Poly_PolygonOnTriangulation.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Vertex.hxx>
#include <limits>
#include <utility>
#include <vector>

namespace swingroom {
namespace {

constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

/// A face's triangulation in the body's frame.
struct Facets {
  TopLoc_Location location;
  Handle(Poly_Triangulation) triangles;

  explicit Facets(const TopoDS_Face& face)
      : triangles(BRep_Tool::Triangulation(face, location)) {}
  Eigen::Vector3d at(int node) const {
    const gp_Pnt p = triangles->Node(node).Transformed(location.Transformation());
    return {p.X(), p.Y(), p.Z()};
  }
};

class Welder {
 public:
  void add(const TopoDS_Face& face, const Facets& facets) {
    std::vector<std::uint32_t> corners(static_cast<std::size_t>(facets.triangles->NbNodes()) + 1,
                                       kNone);
    for (TopExp_Explorer edge(face, TopAbs_EDGE); edge.More(); edge.Next()) {
      nameNodes(TopoDS::Edge(edge.Current()), facets, corners);
    }
    for (std::size_t node = 1; node < corners.size(); ++node) {
      if (corners[node] == kNone) corners[node] = newCorner(facets.at(static_cast<int>(node)));
    }
    const bool turned = (face.Orientation() == TopAbs_REVERSED) !=
                        facets.location.Transformation().IsNegative();
    for (int i = 1; i <= facets.triangles->NbTriangles(); ++i) {
      int a = 0, b = 0, c = 0;
      facets.triangles->Triangle(i).Get(a, b, c);
      if (turned) std::swap(b, c);
      addTriangle(corners[static_cast<std::size_t>(a)], corners[static_cast<std::size_t>(b)],
                  corners[static_cast<std::size_t>(c)]);
    }
  }

  TriangleMesh take() { return std::move(mesh_); }

 private:
  /// Gives the face's nodes along an edge the corners that the edge has.
  void nameNodes(const TopoDS_Edge& edge, const Facets& facets,
                 std::vector<std::uint32_t>& corners) {
    const Handle(Poly_PolygonOnTriangulation) polygon =
        BRep_Tool::PolygonOnTriangulation(edge, facets.triangles, facets.location);
    if (polygon.IsNull()) return;
    const std::vector<std::uint32_t>& known = cornersOf(edge, *polygon, facets);
    if (known.size() != static_cast<std::size_t>(polygon->NbNodes())) return;
    for (int i = 1; i <= polygon->NbNodes(); ++i) {
      corners[static_cast<std::size_t>(polygon->Node(i))] = known[static_cast<std::size_t>(i - 1)];
    }
  }

  const std::vector<std::uint32_t>& cornersOf(const TopoDS_Edge& edge,
                                              const Poly_PolygonOnTriangulation& polygon,
                                              const Facets& facets) {
    const auto index = static_cast<std::size_t>(edges_.Add(edge));
    if (index <= edgeCorners_.size()) return edgeCorners_[index - 1];
    std::vector<std::uint32_t> corners;
    const TopoDS_Edge forward = TopoDS::Edge(edge.Oriented(TopAbs_FORWARD));
    const int last = polygon.NbNodes();
    for (int i = 1; i <= last; ++i) {
      const Eigen::Vector3d p = facets.at(polygon.Node(i));
      if (i == 1 || (BRep_Tool::Degenerated(edge) && i < last)) {
        corners.push_back(cornerOf(TopExp::FirstVertex(forward), p));
      } else if (i == last) {
        corners.push_back(cornerOf(TopExp::LastVertex(forward), p));
      } else {
        corners.push_back(newCorner(p));
      }
    }
    edgeCorners_.push_back(std::move(corners));
    return edgeCorners_.back();
  }

  std::uint32_t cornerOf(const TopoDS_Vertex& vertex, const Eigen::Vector3d& p) {
    if (vertex.IsNull()) return newCorner(p);
    const auto index = static_cast<std::size_t>(vertices_.Add(vertex));
    if (index > vertexCorners_.size()) vertexCorners_.push_back(newCorner(p));
    return vertexCorners_[index - 1];
  }

  std::uint32_t newCorner(const Eigen::Vector3d& p) {
    mesh_.vertices.push_back(p);
    return static_cast<std::uint32_t>(mesh_.vertices.size() - 1);
  }

  /// At the tip of a cone or the pole of a sphere triangles shrink to a line: none is missed.
  void addTriangle(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    if (a != b && b != c && c != a) mesh_.triangles.push_back({a, b, c});
  }

  TriangleMesh mesh_;
  TopTools_IndexedMapOfShape edges_, vertices_;  ///< Counted from 1, in order of their first use.
  std::vector<std::vector<std::uint32_t>> edgeCorners_;
  std::vector<std::uint32_t> vertexCorners_;
};

}  // namespace

TriangleMesh weldFaces(const TopoDS_Shape& body, int& facesWithoutMesh) {
  Welder welder;
  facesWithoutMesh = 0;
  for (TopExp_Explorer face(body, TopAbs_FACE); face.More(); face.Next()) {
    const Facets facets(TopoDS::Face(face.Current()));
    if (facets.triangles.IsNull()) {
      ++facesWithoutMesh;
    } else {
      welder.add(TopoDS::Face(face.Current()), facets);
    }
  }
  return welder.take();
}

}  // namespace swingroom
