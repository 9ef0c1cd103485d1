#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "core/mesh/health.h"
#include "core/mesh/surface_topology.h"
#include "core/mesh/triangle_mesh.h"
#include "core/tree/bounding_tree.h"
#include "core/tree/ray_query.h"

namespace swingroom {

/// A closed mesh's surface as seen from outside, made ready for questions of thickness. Its faces
/// are the mesh's triangles, or parts of those that other shells hide in part. Lengths in mm, in
/// the mesh's frame; const from any thread.
class WallSurface {
 public:
  /// Cosine of faces that look away from each other by 120 degrees.
  static constexpr double kOpposedCos = -0.5;

  /// An edge that reaches into the material: its two normals bend by 30 degrees or more.
  struct Groove {
    std::uint32_t from = 0, to = 0;  ///< Vertices.
    Eigen::Vector3d normals[2];      ///< Of its two faces.
    std::uint32_t faces[2] = {0, 0};
  };
  /// An edge, or a tip (both ends are one vertex), that is sharper than 75 degrees: about those of
  /// more than 60, rounder faces may oppose each other.
  struct Blade {
    std::uint32_t from = 0, to = 0;
    double openingRad = 0;
  };

  /// @param mesh  Welded; all shells closed.
  WallSurface(const TriangleMesh& mesh, const MeshHealth& health, unsigned threads);

  const TriangleMesh& mesh() const { return faces_; }
  /// By face: the triangle of the mesh that it is of. Rising.
  const std::vector<std::uint32_t>& triangleOf() const { return triangleOf_; }
  const SurfaceTopology& topology() const { return *topology_; }
  const BoundingTree& tree() const { return *tree_; }
  const Eigen::Vector3d& normal(std::uint32_t face) const { return topology_->normals[face]; }
  TriangleCorners corners(std::uint32_t face) const {
    return {faces_.corner(face, 0), faces_.corner(face, 1), faces_.corner(face, 2)};
  }
  /// Unit normal at a point of the face of the round surface that the facets stand for, if they
  /// bend by less than 35 degrees; else of the face.
  Eigen::Vector3d smoothNormal(std::uint32_t face, const Eigen::Vector3d& p) const;

  const std::vector<Groove>& grooves() const { return grooves_; }
  /// By face and side: which groove it is.
  const std::vector<std::array<std::uint32_t, 3>>& grooveAt() const { return grooveAt_; }
  bool hasGroove(std::uint32_t face) const { return hasGroove_[face] != 0; }

  /// Whether nothing in the tree's node is opposed to `normal`: neither a face nor a groove.
  bool facesAway(std::uint32_t node, const Eigen::Vector3d& normal) const {
    return -facing_[node].axis.dot(normal) < facing_[node].leastCos;
  }

  const std::vector<Blade>& blades() const { return blades_; }
  /// The nearest blade within reach.
  struct NearBlade {
    double distanceMm = 0;
    double openingRad = 0;
  };
  std::optional<NearBlade> bladeNear(const Eigen::Vector3d& p, double withinMm) const;

  /// Where the material ends along a ray that starts in it.
  struct Exit {
    double distanceMm = 0;
    std::uint32_t face = 0;
  };
  std::optional<Exit> exitAlong(const Eigen::Vector3d& from, const Eigen::Vector3d& direction,
                                double withinMm) const;

 private:
  void takeAll(const TriangleMesh& mesh);
  void findEdges();
  void findTips();
  void findSmoothNormals();
  void findFacing();

  /// All normals of a node are in a cone; what is opposed to one of them looks against its axis by
  /// this cosine or more.
  struct Facing {
    Eigen::Vector3d axis = Eigen::Vector3d::UnitZ();
    double leastCos = -2;
  };

  TriangleMesh faces_;
  std::vector<std::uint32_t> triangleOf_;
  std::unique_ptr<const SurfaceTopology> topology_;
  std::unique_ptr<const BoundingTree> tree_, bladeTree_;
  std::vector<Groove> grooves_;
  std::vector<std::array<std::uint32_t, 3>> grooveAt_;
  std::vector<char> hasGroove_;
  std::vector<std::uint32_t> firstAt_, facesAt_;  ///< By vertex: where its faces begin.
  std::vector<std::array<Eigen::Vector3f, 3>> cornerNormals_;
  std::vector<Blade> blades_;
  std::vector<Facing> facing_;  ///< By node of the tree.
};

}  // namespace swingroom
