#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "core/mesh/health.h"
#include "core/mesh/triangle_mesh.h"
#include "core/tree/point_query.h"

namespace swingroom {

/// One stage of a part (its block or its detail mesh) made ready to be held against another one.
/// Lengths in mm, in the part's frame; const from any thread.
///
/// Sculpted parts are often several closed shells that reach into each other, as rivets into a
/// hull. What is wholly inside the other shells is no surface of the part: it is left out of
/// `shown` and `tree`.
class StageSurface {
 public:
  /// @param mesh  Welded; kept.
  explicit StageSurface(std::shared_ptr<const TriangleMesh> mesh, unsigned threads = 1);

  const TriangleMesh& mesh() const { return *mesh_; }
  const MeshHealth& health() const { return health_; }
  /// Triangles of the mesh that can be seen from outside, rising.
  const std::vector<std::uint32_t>& shown() const { return shown_; }
  /// Of those.
  const BoundingTree& tree() const { return *tree_; }
  /// Unit, out of the material, by index into `tree().triangles()`; zero of one without area.
  const Eigen::Vector3d& normal(std::uint32_t triangle) const { return normals_[triangle]; }
  const Eigen::AlignedBox3d& bounds() const { return bounds_; }

  /// At least one shell is closed, so that inside is defined.
  bool hasInside() const { return !boundary_->empty(); }
  bool contains(const Eigen::Vector3d& p) const { return windingNumber(*boundary_, p) != 0; }
  /// All shells are closed and none is inside-out: a normal says which side is outside.
  bool isPlain() const { return plain_; }
  /// No triangle is left out.
  bool shellsKeepApart() const { return shown_.size() == mesh_->triangles.size(); }

  /// Nearest point on triangles whose normals have a cosine above `leastCos` with `n`, unit; none
  /// if it is not nearer than `withinMm`.
  std::optional<SurfacePoint> nearestFacing(const Eigen::Vector3d& p, const Eigen::Vector3d& n,
                                            double leastCos, double withinMm) const;

 private:
  void findShown(unsigned threads);
  bool isHidden(std::uint32_t triangle) const;

  std::shared_ptr<const TriangleMesh> mesh_;
  MeshHealth health_;
  std::vector<std::uint32_t> shown_;
  std::shared_ptr<const BoundingTree> tree_;
  std::shared_ptr<const BoundingTree> boundary_;  ///< Of closed shells.
  std::vector<Eigen::Vector3d> normals_;
  Eigen::AlignedBox3d bounds_;
  bool plain_ = false;
};

}  // namespace swingroom
