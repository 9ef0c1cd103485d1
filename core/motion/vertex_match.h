#pragma once

#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Rigid displacements that carry the vertices of `a` onto those of `b` and back within
/// `toleranceMm`, whatever the order of both; the least turn first. A part that looks the same from
/// several sides has several, of which at most 360 are given. None: the vertices do not match.
/// About 1000 vertices of each are looked at; how well the rest fits is for the caller to measure.
/// Two rare corners of `a` are tried on all corners of `b` that are as far from the centroid and
/// from each other; so a tolerance well below the distance of neighbouring vertices is quick, and a
/// large one gives up after some seconds.
std::vector<Pose> matchVertices(const TriangleMesh& a, const TriangleMesh& b, double toleranceMm);

/// Centroid of the surface (not of the solid), mm.
Vector3d surfaceCentroid(const TriangleMesh& mesh);

/// The displacement that carries the columns of `from` onto those of `to` with the least squares.
/// Umeyama, IEEE PAMI 13(4), 1991, without scale.
Pose fittedDisplacement(const Eigen::Matrix3Xd& from, const Eigen::Matrix3Xd& to);

}  // namespace swingroom
