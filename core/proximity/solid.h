#pragma once

#include <memory>
#include <vector>

#include "core/mesh/triangle_mesh.h"
#include "core/proximity/wall_neighbours.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// What is needed of a part to say what lies inside it: its closed shells, and one corner of each of its
/// shells, closed or not. Lengths in mm, in the part's frame; const from any thread.
class Solid {
 public:
  explicit Solid(const TriangleMesh& mesh);
  /// @param whole  Tree of the mesh: where all shells are closed it serves as the boundary too.
  Solid(const TriangleMesh& mesh, std::shared_ptr<const BoundingTree> whole);

  /// At least one shell is closed, so that inside is defined. Open shells bound nothing.
  bool hasInside() const { return !boundary_->empty(); }
  /// Every shell is closed.
  bool isClosed() const { return closed_; }
  const BoundingTree& boundary() const { return *boundary_; }
  const std::vector<Eigen::Vector3d>& shellCorners() const { return shellCorners_; }

  /// In the material, whichever way the faces look. False without closed shells.
  bool contains(const Eigen::Vector3d& p) const;

  /// Of the boundary; made when first asked for.
  const WallNeighbours& neighbours() const;

 private:
  struct MadeLater;

  std::shared_ptr<const BoundingTree> boundary_;
  std::vector<Eigen::Vector3d> shellCorners_;
  bool closed_ = false;
  std::shared_ptr<MadeLater> later_;
};

}  // namespace swingroom
