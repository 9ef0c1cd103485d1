#pragma once

#include "core/mesh/triangle_mesh.h"

class TopoDS_Shape;

namespace swingroom {

/// The triangulations of a meshed body's faces as one surface. Faces that share an edge share its
/// corners, whatever the tolerances in the file: joined by what belongs together, not by what is near.
/// @param facesWithoutMesh  Gets how many faces have no triangulation.
TriangleMesh weldFaces(const TopoDS_Shape& body, int& facesWithoutMesh);

}  // namespace swingroom
