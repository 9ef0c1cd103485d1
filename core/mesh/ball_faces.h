#pragma once

#include <Eigen/Core>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// A part of a surface that lies on a ball whose centre is on a given line. Lengths in mm.
struct BallFace {
  bool outward = false;   ///< A ball. Otherwise a socket.
  double centreMm = 0;    ///< Along the line from its point.
  double radiusMm = 0;    ///< Of the corners, averaged by area.
  double leastMm = 0;     ///< Of any point of the facets.
  double greatestMm = 0;  ///< Of any corner.
  double share = 0;       ///< Of the whole ball's surface, 0 to 1.
};

/// The ball faces of `mesh` centred on the line through `through` along unit `along`, by place and
/// rising radius; the line may be off by about `toleranceMm`. Bands that one cone or cylinder could
/// be as well do not count, nor what is less than a twentieth of a ball.
/// @throws std::invalid_argument if `along` is not a unit vector.
std::vector<BallFace> ballFacesOn(const TriangleMesh& mesh, const Eigen::Vector3d& through,
                                  const Eigen::Vector3d& along, double toleranceMm = 0.05);

}  // namespace swingroom
