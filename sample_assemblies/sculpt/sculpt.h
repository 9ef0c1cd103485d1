#pragma once

#include <Eigen/Geometry>
#include <functional>
#include <vector>

#include "core/mesh/triangle_mesh.h"

namespace swingroom::samples {

/// Moves the space about a part, and its surface with it: the height of a relief on a face, less
/// and less below it. As it moves space, nothing folds while heights are less than half of
/// `depthMm`.
struct Push {
  Eigen::AlignedBox3d where;                               ///< Nothing moves outside it.
  std::function<double(const Eigen::Vector3d&)> heightMm;  ///< Outward positive.
  /// How far a place is below the face, mm; above it negative.
  std::function<double(const Eigen::Vector3d&)> belowMm;
  std::function<Eigen::Vector3d(const Eigen::Vector3d&)> outward;  ///< Of length 1.
  double depthMm = 1.6;                                            ///< Below that nothing moves.
  double edgeMm = 0.6;  ///< Longest edge that is wanted on the face.
};

/// The relief of the face `axis` = `level` (0 to 2 for x to z), seen from the side `sign`.
Push onFace(int axis, double level, int sign, const Eigen::AlignedBox3d& where,
            std::function<double(const Eigen::Vector3d&)> heightMm);

/// The relief of a round bar about the line through `centre` along `axis`.
Push onBar(int axis, const Eigen::Vector3d& centre, double radius, const Eigen::AlignedBox3d& where,
           std::function<double(const Eigen::Vector3d&)> heightMm);

/// Where nothing moves: within `radius` of a line, and beyond it more and more over `fadeMm`.
struct Keep {
  Eigen::Vector3d from, to;
  double radius = 0;
  double fadeMm = 0.8;
};

/// The same for a box.
struct KeepBox {
  Eigen::AlignedBox3d box;
  double fadeMm = 0.8;
};

/// What is done to a block part; in the order of the list.
struct Sculpture {
  std::vector<Push> pushes;
  std::vector<Keep> holes;  ///< Joints: their triangles are kept as they are, too.
  std::vector<KeepBox> kept;
  double strayMm = 0.022;
  double leastMm = 0.17;
};

/// The block's mesh made fine and moved; coordinates are float32 numbers.
TriangleMesh sculpted(const TriangleMesh& block, const Sculpture& sculpture);

Eigen::AlignedBox3d boxOf(const Eigen::Vector3d& low, const Eigen::Vector3d& high);

}  // namespace swingroom::samples
