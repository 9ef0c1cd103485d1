#pragma once

#include <Eigen/Core>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A surface cut in two along the rim of a region. Triangles across the rim are cut at it.
struct SplitMesh {
  TriangleMesh inside;
  TriangleMesh outside;
};

/// Area of all triangles, mm2.
double areaOf(const TriangleMesh& mesh);

/// Cuts at a piece of cylinder, taken as the inscribed regular prism of 48 sides: what is called inside is
/// inside the true cylinder, and at most 0.0022 of the radius short of it.
/// @param axis Unit. @param from, to  Ends along the axis, mm from `through`.
SplitMesh splitByCylinder(const TriangleMesh& mesh, const Eigen::Vector3d& through, const Eigen::Vector3d& axis,
                          double radius, double from, double to);

/// Cuts at a ball. In each triangle's plane the circle is taken as its inscribed 48-gon.
SplitMesh splitByBall(const TriangleMesh& mesh, const Eigen::Vector3d& centre, double radius);

}  // namespace swingroom
