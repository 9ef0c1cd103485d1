#pragma once

#include <optional>

#include "core/mesh/triangle_mesh.h"

class TopoDS_Shape;

namespace swingroom {

struct BodyMesh {
  TriangleMesh mesh;
  double deviationMm = 0;     ///< Measured, see `deviationOf`.
  int facesWithoutMesh = 0;   ///< Faces that OCCT could not mesh: there the mesh is open.
};

/// A body's surface as triangles, finer until it is measured to lie within `deviationMm`, or as
/// near as a few tries get. Round surfaces get at least 24 sides, however small.
/// Replaces the triangulation that OCCT keeps in the shape.
BodyMesh meshOf(const TopoDS_Shape& body, double deviationMm);

}  // namespace swingroom
