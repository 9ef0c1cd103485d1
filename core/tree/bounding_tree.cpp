#include "core/tree/bounding_tree.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <numeric>

namespace swingroom {
namespace {

using Eigen::AlignedBox3d;
using Eigen::Vector3d;

constexpr std::size_t kLeafTriangles = 2;

struct Builder {
  const TriangleMesh& mesh;
  std::vector<std::uint32_t> order;
  std::vector<Vector3d> centroids;
  std::vector<BoundingTree::Node>& nodes;

  AlignedBox3d boxOf(std::size_t first, std::size_t count) const {
    AlignedBox3d box;
    for (std::size_t i = first; i < first + count; ++i) {
      for (int k = 0; k < 3; ++k) box.extend(mesh.corner(order[i], k));
    }
    return box;
  }

  /// Splits at the middle triangle along the axis on which the centroids spread most.
  std::size_t split(std::size_t first, std::size_t count) {
    AlignedBox3d spread;
    for (std::size_t i = first; i < first + count; ++i) spread.extend(centroids[order[i]]);
    Eigen::Index axis = 0;
    spread.sizes().maxCoeff(&axis);
    const auto begin = order.begin() + static_cast<std::ptrdiff_t>(first);
    const auto middle = begin + static_cast<std::ptrdiff_t>(count / 2);
    std::nth_element(begin, middle, begin + static_cast<std::ptrdiff_t>(count),
                     [&](std::uint32_t a, std::uint32_t b) {
                       const double x = centroids[a][axis], y = centroids[b][axis];
                       return x != y ? x < y : a < b;
                     });
    return count / 2;
  }

  void build(std::size_t node, std::size_t first, std::size_t count) {
    const AlignedBox3d box = boxOf(first, count);
    nodes[node].centre = box.center();
    // The rounding of centre and half sizes must not leave a corner outside.
    nodes[node].half = (box.max() - nodes[node].centre).cwiseMax(nodes[node].centre - box.min()) * (1 + 1e-15);
    nodes[node].radius = nodes[node].half.norm() * (1 + 1e-15);
    if (count <= kLeafTriangles) {
      nodes[node].first = static_cast<std::uint32_t>(first);
      nodes[node].count = static_cast<std::uint32_t>(count);
      return;
    }
    const std::size_t leftCount = split(first, count);
    const std::size_t left = nodes.size();
    nodes[node].first = static_cast<std::uint32_t>(left);
    nodes.resize(left + 2);
    build(left, first, leftCount);
    build(left + 1, first + leftCount, count - leftCount);
  }
};

}  // namespace

BoundingTree::BoundingTree(const TriangleMesh& mesh) {
  const std::size_t count = mesh.triangles.size();
  if (count == 0) return;
  Builder builder{mesh, std::vector<std::uint32_t>(count), {}, nodes_};
  std::iota(builder.order.begin(), builder.order.end(), 0u);
  builder.centroids.reserve(count);
  for (std::size_t t = 0; t < count; ++t) {
    builder.centroids.push_back((mesh.corner(t, 0) + mesh.corner(t, 1) + mesh.corner(t, 2)) / 3);
  }
  nodes_.reserve(2 * count);
  nodes_.resize(1);
  builder.build(0, 0, count);
  triangles_.reserve(count);
  for (const std::uint32_t t : builder.order) {
    triangles_.push_back({mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2)});
  }
}

}  // namespace swingroom
