#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

#include "core/mesh/closest_points.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Binary tree of oriented boxes over a mesh's triangles, in the mesh's own frame, mm. A box turned
/// like its patch of surface is flat: patches that face each other are told apart long before their
/// triangles are reached. Fixed once built; const from any thread. Boxes are in double and hold
/// their triangles to rounding (1e-14 of the mesh's size).
class BoundingTree {
 public:
  struct Node {
    Eigen::Vector3d centre;
    double radius = 0;        ///< Of the ball about `centre` that holds the box.
    Eigen::Vector3d half;     ///< Half extents along `axes`, not negative.
    std::uint32_t first = 0;  ///< Inner node: its left child, the right one follows. Leaf: first triangle.
    std::uint32_t count = 0;  ///< Leaf: number of triangles. 0: an inner node.
    Eigen::Matrix3d axes;     ///< Columns: the box's unit axes, right-handed. The root's: identity.

    bool isLeaf() const { return count > 0; }
  };

  /// Most triangles of a leaf.
  static constexpr std::size_t kLeafTriangles = 4;

  /// Empty for a mesh without triangles.
  explicit BoundingTree(const TriangleMesh& mesh);

  /// The same tree, node by node, of the surface made `factor` times as large about `centre`. Factor above 0.
  BoundingTree scaledAbout(const Eigen::Vector3d& centre, double factor) const;

  bool empty() const { return nodes_.empty(); }
  /// Node 0 is the root.
  const std::vector<Node>& nodes() const { return nodes_; }
  const Node& root() const { return nodes_.front(); }
  /// Triangles in the tree's own order; a leaf holds a run of them.
  const std::vector<TriangleCorners>& triangles() const { return triangles_; }
  /// By the tree's order: where in the mesh's list the triangle is.
  const std::vector<std::uint32_t>& order() const { return order_; }

 private:
  std::vector<Node> nodes_;
  std::vector<TriangleCorners> triangles_;
  std::vector<std::uint32_t> order_;
};

}  // namespace swingroom
