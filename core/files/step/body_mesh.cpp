#include "core/files/step/body_mesh.h"

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepTools.hxx>
#include <TopoDS_Shape.hxx>
#include <algorithm>

#include "core/files/step/body_deviation.h"
#include "core/files/step/weld_faces.h"
#include "core/mesh/health.h"
#include "core/mesh/weld.h"

namespace swingroom {
namespace {

constexpr double kTurnRad = 2 * 3.14159265358979323846 / 24;
constexpr int kTries = 5;
/// A quadratic peak between points that are a sixth of an edge apart is a thirty-sixth higher at most.
constexpr double kSampled = 35.0 / 36;

bool looksInwards(const TriangleMesh& mesh) {
  const MeshHealth health = examine(mesh);
  return health.closed() && health.volumeMm3 < 0;
}

void turnRound(TriangleMesh& mesh) {
  for (Triangle& triangle : mesh.triangles) std::swap(triangle[1], triangle[2]);
}

}  // namespace

BodyMesh meshOf(const TopoDS_Shape& body, double deviationMm) {
  const double wanted = deviationMm * kSampled;
  double deflection = deviationMm;
  BodyMesh made;
  for (int i = 0; i < kTries; ++i) {
    BRepTools::Clean(body);
    const BRepMesh_IncrementalMesh facets(body, deflection, false, kTurnRad, false);
    made.deviationMm = deviationOf(body);
    if (made.deviationMm <= wanted) break;
    deflection *= std::clamp(0.9 * wanted / made.deviationMm, 0.35, 0.7);
  }
  made.mesh = weldFaces(body, made.facesWithoutMesh);
  // Faces that do not share their edges in the file may have the same corners there all the same.
  if (!examine(made.mesh).closed()) made.mesh = welded(made.mesh);
  if (looksInwards(made.mesh)) turnRound(made.mesh);
  BRepTools::Clean(body);
  return made;
}

}  // namespace swingroom
