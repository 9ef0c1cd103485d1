#pragma once

#include <cstdint>
#include <random>
#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

/// Closed, outward-facing, welded test solids in mm.
namespace swingroom {

inline const Vector3d kOrigin = Vector3d::Zero();
inline const Vector3d kZ = Vector3d::UnitZ();

}  // namespace swingroom

namespace swingroom::shapes {

TriangleMesh box(const Vector3d& low, const Vector3d& high);

/// Straight prism over a convex or star-shaped (about its first corner) outline, counter-clockwise in xy,
/// from z `low` to `high`.
TriangleMesh prism(const std::vector<Eigen::Vector2d>& outline, double low, double high);

/// Cylinder about z with `sides` corners on the circle, the first at angle 0. Error: sagitta
/// radius * (1 - cos(pi / sides)) inwards.
TriangleMesh cylinder(double radius, double low, double high, int sides);

/// Tube about z: a cylinder with a coaxial through hole.
TriangleMesh tube(double outerRadius, double innerRadius, double low, double high, int sides);

/// Sphere about the origin: an icosahedron split `splits` times, corners on the sphere.
TriangleMesh sphere(double radius, int splits);

/// Surface of all points within `radius` of the segment from 0 to `length` on x; corners on the surface.
TriangleMesh capsule(double radius, double length, int sides);

/// Torus about z, `around` by `across` facets, corners on the surface.
TriangleMesh torus(double ringRadius, double tubeRadius, int around, int across);

/// Several surfaces in one mesh, vertices kept apart.
TriangleMesh joined(const std::vector<TriangleMesh>& meshes);

/// All triangles turned round.
TriangleMesh reversed(TriangleMesh mesh);

TriangleMesh moved(const TriangleMesh& mesh, const Pose& X);

/// Farthest that a corner of a regular `sides`-gon on a circle of `radius` is from its edges' middles.
double sagitta(double radius, int sides);

/// Uniformly distributed rotation and a translation within `reach` in each coordinate.
Pose randomPose(std::mt19937_64& random, double reach);

}  // namespace swingroom::shapes
