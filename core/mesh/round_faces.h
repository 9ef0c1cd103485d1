#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A stretch of a surface that lies on a cylinder about a given axis: a pin or the wall of a hole,
/// or what other features left of it. Lengths in mm, along the axis from its point.
struct RoundFace {
  bool outward = false;   ///< A pin. Otherwise a hole.
  double radiusMm = 0;    ///< Of the corners, averaged by area.
  double leastMm = 0;     ///< Of any point of the facets; a hole's chords come nearer than corners.
  double greatestMm = 0;  ///< Of any corner.
  double fromMm = 0;
  double toMm = 0;
  double coverageRad = 0;  ///< How much of a turn it goes round, gaps left out; 2 pi: all round.
};

/// The round faces of `mesh` about the line through `through` along unit `along`, by rising radius.
/// Two radii are told apart if more than `toleranceMm` lies between them, and the axis may be off
/// by about that much. Facets wider than 50 degrees are flats: a hexagon is not round. Faces
/// shorter than 0.2 mm or under 40 degrees are left out.
/// @throws std::invalid_argument if `along` is not a unit vector.
std::vector<RoundFace> roundFacesAbout(const TriangleMesh& mesh, const Eigen::Vector3d& through,
                                       const Eigen::Vector3d& along, double toleranceMm = 0.05);

}  // namespace swingroom
