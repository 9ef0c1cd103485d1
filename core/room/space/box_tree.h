#pragma once

#include <Eigen/Geometry>
#include <algorithm>
#include <cstdint>
#include <utility>
#include <vector>

#include "core/base/parallel.h"
#include "core/base/work_monitor.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

/// Upright boxes round a mesh's triangles, in a tree: which come near a box, and which near each
/// other.
class BoxTree {
 public:
  using Box = Eigen::AlignedBox3d;
  using Pair = std::pair<std::uint32_t, std::uint32_t>;

  explicit BoxTree(const TriangleMesh& mesh);

  /// Calls `visit(triangle)` for each whose box meets `box`.
  template <typename Visit>
  void forNear(const Box& box, const Visit& visit) const {
    if (nodes_.empty()) return;
    std::vector<std::uint32_t> waiting{0};
    while (!waiting.empty()) {
      const Node& node = nodes_[waiting.back()];
      waiting.pop_back();
      if (!node.box.intersects(box)) continue;
      if (node.isLeaf()) {
        for (std::uint32_t i = node.first; i < node.end; ++i) {
          if (boxes_[order_[i]].intersects(box)) visit(order_[i]);
        }
      } else {
        waiting.push_back(node.left + 1);
        waiting.push_back(node.left);
      }
    }
  }

  /// All pairs with boxes that meet of which `isWanted(a, b)` is true, lower number first, in
  /// order. After a cancel some are missing.
  template <typename Wanted>
  std::vector<Pair> pairs(const Wanted& isWanted, unsigned threads,
                          const WorkMonitor& monitor) const {
    const std::vector<Pair> tasks = nodePairs();
    std::vector<std::vector<Pair>> found(tasks.size());
    parallelFor(tasks.size(), threads, [&](std::size_t i) {
      if (!monitor.cancelled())
        forPairs(tasks[i].first, tasks[i].second, [&](std::uint32_t a, std::uint32_t b) {
          if (isWanted(std::min(a, b), std::max(a, b)))
            found[i].emplace_back(std::min(a, b), std::max(a, b));
        });
    });
    std::vector<Pair> all;
    for (const auto& some : found) all.insert(all.end(), some.begin(), some.end());
    std::sort(all.begin(), all.end());
    return all;
  }

 private:
  struct Node {
    Box box;
    std::uint32_t first = 0, end = 0;  ///< Into `order_`.
    std::uint32_t left = 0;            ///< Its child; the other follows. 0: a leaf.
    bool isLeaf() const { return left == 0; }
  };

  void build(std::uint32_t node);
  /// Pairs of nodes (or one with itself) below which all pairs of triangles are, small enough to be
  /// one task.
  std::vector<Pair> nodePairs() const;
  /// The node pairs just below one; nothing if it is to be looked at triangle by triangle.
  void below(const Pair& pair, std::vector<Pair>& next) const;

  template <typename Visit>
  void forPairs(std::uint32_t a, std::uint32_t b, const Visit& visit) const {
    std::vector<Pair> waiting{{a, b}};
    while (!waiting.empty()) {
      const Pair pair = waiting.back();
      waiting.pop_back();
      const Node &x = nodes_[pair.first], &y = nodes_[pair.second];
      if (!x.isLeaf() || !y.isLeaf()) {
        below(pair, waiting);
        continue;
      }
      for (std::uint32_t i = x.first; i < x.end; ++i) {
        for (std::uint32_t j = pair.first == pair.second ? i + 1 : y.first; j < y.end; ++j) {
          if (boxes_[order_[i]].intersects(boxes_[order_[j]])) visit(order_[i], order_[j]);
        }
      }
    }
  }

  std::vector<Box> boxes_;
  std::vector<std::uint32_t> order_;
  std::vector<Node> nodes_;
};

}  // namespace swingroom
