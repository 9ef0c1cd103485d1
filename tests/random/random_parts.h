#pragma once

#include <random>
#include <string>

#include "core/mesh/triangle_mesh.h"

/// Closed, outward-facing random parts of 12 to 2 000 triangles, in mm, about the origin.
/// Coordinates are single-precision numbers, so that an STL file holds them exactly.
namespace swingroom::random_suite {

using Random = std::mt19937_64;

struct RandomPart {
  std::string name;
  TriangleMesh mesh;
};

double uniform(Random& random, double low, double high);
/// Evenly spread logarithms.
double logUniform(Random& random, double low, double high);
bool chance(Random& random, double probability);
Eigen::Vector3d randomDirection(Random& random);

/// Any kind: box, convex hull, L, U, C, tube, torus, thin bar, bumpy sphere, hollow box, fence.
/// @param sizeMm  Longest side of its box.
RandomPart randomPart(Random& random, double sizeMm);

/// Box from -half to half.
TriangleMesh boxOf(const Eigen::Vector3d& half);

/// Scaled so that the longest side of its box is `sizeMm`, and centred.
TriangleMesh fitted(TriangleMesh mesh, double sizeMm);

/// Coordinates rounded to single precision.
TriangleMesh asInFile(TriangleMesh mesh);

}  // namespace swingroom::random_suite
