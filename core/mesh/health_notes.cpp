#include <algorithm>
#include <cstdio>

#include "core/mesh/health.h"

namespace swingroom {
namespace {

const char* const kSurfaceOnly =
    "its inside is not defined, so it is checked as a surface and 'inside another part' is not "
    "judged";

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string unitNote(const TriangleMesh& mesh) {
  const double extentMm = boundsOf(mesh).sizes().maxCoeff();
  const bool tiny = extentMm < 1;
  if (!tiny && extentMm <= 2000) return {};
  char size[32];
  std::snprintf(size, sizeof size, "%.4g", extentMm);
  return std::string("its largest extent is ") + size + " mm: " +
         (tiny ? "its numbers may be metres or inches, not mm"
               : "its numbers may be in a smaller unit than was taken");
}

}  // namespace

std::vector<std::string> healthNotes(const TriangleMesh& mesh, const MeshHealth& health) {
  std::vector<std::string> notes;
  if (mesh.triangles.empty()) return {"it has no triangles: there is nothing to check"};
  const bool closed = health.closed();
  const std::string inside = closed ? "its inside is still defined" : kSurfaceOnly;
  if (health.openEdges > 0) {
    notes.push_back(counted(health.openEdges, "open edge", "open edges") + ": " + kSurfaceOnly);
  }
  if (health.nonManifoldEdges > 0) {
    notes.push_back(counted(health.nonManifoldEdges, "edge", "edges") +
                    " with three triangles or more: " + inside);
  }
  if (!closed && health.openEdges == 0 && health.nonManifoldEdges == 0) {
    notes.push_back(std::string("neighbouring triangles face opposite ways: ") + kSurfaceOnly);
  }
  if (health.zeroAreaTriangles > 0) {
    notes.push_back(counted(health.zeroAreaTriangles, "triangle has", "triangles have") +
                    " no area: gaps are still measured there, but no outside is defined");
  }
  if (health.repeatedTriangles > 0) {
    notes.push_back(counted(health.repeatedTriangles, "triangle repeats", "triangles repeat") +
                    " an earlier one: gaps are not changed by that");
  }
  if (health.insideOutShells > 0) {
    notes.push_back(counted(health.insideOutShells, "closed piece is", "closed pieces are") +
                    " inside-out (faces look inwards): depth of overlap and 'inside another part' "
                    "cannot be trusted there");
  }
  const std::string unit = unitNote(mesh);
  if (!unit.empty()) notes.push_back(unit);
  return notes;
}

}  // namespace swingroom
