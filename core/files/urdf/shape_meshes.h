#pragma once

#include <string>

#include "core/files/urdf/robot_description.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A box, cylinder or sphere of a URDF as a mesh file to be written.
struct ShapeFile {
  std::string name;     ///< "box_200x100x50.stl", by its size in mm: equal shapes, equal names.
  TriangleMesh mesh;    ///< mm, closed, about its centre; a cylinder lies along z.
  double insideMm = 0;  ///< How far its facets lie inside the true surface at most.
};

/// @param shape  No mesh. Corners lie on the true surface; facets of round faces lie inside it by
/// no more than 0.05 mm or 1/2000 of the radius, whichever is more.
ShapeFile shapeFile(const RobotShape& shape);

/// As a binary STL file.
std::string stlBytes(const TriangleMesh& mesh);

}  // namespace swingroom
