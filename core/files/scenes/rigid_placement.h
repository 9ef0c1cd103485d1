#pragma once

#include <optional>
#include <string>

#include "core/base/transform.h"
#include "core/files/document/assembly_document.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// How an assembly file says where a surface stands: scaled evenly, mirrored or not, placed.
struct RigidPlacement {
  double scale = 1;
  std::optional<DocumentMirror> mirror;  ///< Through the surface's origin.
  Pose X_WP = Pose::Identity();

  /// The surface's own frame in the world.
  Eigen::Affine3d whole() const;
};

/// The placement nearest to `X_WS`, or, as a clause, why it is none: it stretches or shears the
/// surface by more than 0.001 mm (0.00001 of its size, if that is more), or flattens it.
struct PlacementTry {
  RigidPlacement placement;
  std::string whyNot;  ///< Empty: it fits.
};
PlacementTry rigidPlacementOf(const Eigen::Affine3d& X_WS, const TriangleMesh& surface);

/// As a file has it, in few digits where that moves no corner by more than about 0.00002 mm; nothing if it
/// places nowhere else.
/// @param reachMm  How far the farthest corner is from the part's origin.
std::optional<DocumentPlacement> writtenPlacement(const Pose& X_WP, double reachMm);

/// The farthest corner from the origin.
double reachOf(const TriangleMesh& surface);

}  // namespace swingroom
