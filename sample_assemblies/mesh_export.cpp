#include "sample_assemblies/mesh_export.h"

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <array>
#include <cmath>
#include <fstream>
#include <map>
#include <stdexcept>
#include <utility>

namespace swingroom::samples {
namespace {

/// Corners of two faces along their common edge are one corner if they share a cell of this size.
constexpr double kWeldMm = 1e-4;

/// Collects triangles over vertices that are kept once.
class Welder {
 public:
  std::uint32_t vertex(const Eigen::Vector3d& p) {
    const std::array<long, 3> cell{std::lround(p.x() / kWeldMm), std::lround(p.y() / kWeldMm),
                                   std::lround(p.z() / kWeldMm)};
    const auto [place, isNew] =
        places_.try_emplace(cell, static_cast<std::uint32_t>(mesh_.vertices.size()));
    if (isNew) mesh_.vertices.push_back(p);
    return place->second;
  }

  void triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    if (a != b && b != c && c != a) mesh_.triangles.push_back({a, b, c});
  }

  TriangleMesh take() { return std::move(mesh_); }

 private:
  TriangleMesh mesh_;
  std::map<std::array<long, 3>, std::uint32_t> places_;
};

void addFace(Welder& welder, const TopoDS_Face& face) {
  TopLoc_Location location;
  const Handle(Poly_Triangulation) facets = BRep_Tool::Triangulation(face, location);
  if (facets.IsNull()) throw std::runtime_error("a face was not meshed");
  const auto vertexOf = [&](int node) {
    const gp_Pnt p = facets->Node(node).Transformed(location.Transformation());
    return welder.vertex({p.X(), p.Y(), p.Z()});
  };
  for (int i = 1; i <= facets->NbTriangles(); ++i) {
    int a = 0, b = 0, c = 0;
    facets->Triangle(i).Get(a, b, c);
    if (face.Orientation() == TopAbs_REVERSED) std::swap(b, c);
    welder.triangle(vertexOf(a), vertexOf(b), vertexOf(c));
  }
}

void requireClosed(const TriangleMesh& mesh) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> timesUsed;
  for (const Triangle& t : mesh.triangles) {
    for (std::size_t i = 0; i < 3; ++i) ++timesUsed[{t[i], t[(i + 1) % 3]}];
  }
  for (const auto& [edge, times] : timesUsed) {
    const auto partner = timesUsed.find({edge.second, edge.first});
    if (times != 1 || partner == timesUsed.end() || partner->second != 1) {
      throw std::runtime_error("the mesh is not closed");
    }
  }
}

void putFloats(std::ostream& out, const Eigen::Vector3d& v) {
  const std::array<float, 3> numbers{static_cast<float>(v.x()), static_cast<float>(v.y()),
                                     static_cast<float>(v.z())};
  out.write(reinterpret_cast<const char*>(numbers.data()), sizeof numbers);
}

}  // namespace

TriangleMesh roundedToFloat(TriangleMesh mesh) {
  for (Eigen::Vector3d& v : mesh.vertices) {
    v = v.cast<float>().cast<double>();
    for (int i = 0; i < 3; ++i) v[i] += 0.0;  // -0 becomes 0.
  }
  return mesh;
}

TriangleMesh meshed(const Solid& solid, double deviationMm) {
  const BRepMesh_IncrementalMesh facets(solid, deviationMm, false, kTurnRad, false);
  Welder welder;
  for (TopExp_Explorer face(solid, TopAbs_FACE); face.More(); face.Next()) {
    addFace(welder, TopoDS::Face(face.Current()));
  }
  TriangleMesh mesh = roundedToFloat(welder.take());
  requireClosed(mesh);
  return mesh;
}

void writeStl(const TriangleMesh& mesh, const std::filesystem::path& file) {
  std::ofstream out(file, std::ios::binary);
  std::array<char, 80> title{"Swingroom sample, mm"};
  out.write(title.data(), title.size());
  const auto count = static_cast<std::uint32_t>(mesh.triangles.size());
  out.write(reinterpret_cast<const char*>(&count), sizeof count);
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Eigen::Vector3d& a = mesh.corner(t, 0);
    const Eigen::Vector3d& b = mesh.corner(t, 1);
    const Eigen::Vector3d& c = mesh.corner(t, 2);
    putFloats(out, (b - a).cross(c - a).normalized());
    for (const Eigen::Vector3d& corner : {a, b, c}) putFloats(out, corner);
    out.write("\0\0", 2);
  }
  if (!out.flush()) throw std::runtime_error("cannot write " + file.string());
}

}  // namespace swingroom::samples
