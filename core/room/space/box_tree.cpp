#include "core/room/space/box_tree.h"

#include <algorithm>
#include <numeric>

namespace swingroom {
namespace {

constexpr std::uint32_t kLeaf = 6;
constexpr std::uint32_t kTask = 4096;  ///< Triangles of a node that is one task.

}  // namespace

BoxTree::BoxTree(const TriangleMesh& mesh) : order_(mesh.triangles.size()) {
  boxes_.reserve(mesh.triangles.size());
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    Box box(mesh.corner(t, 0));
    box.extend(mesh.corner(t, 1)).extend(mesh.corner(t, 2));
    boxes_.push_back(box);
  }
  std::iota(order_.begin(), order_.end(), 0u);
  if (order_.empty()) return;
  nodes_.reserve(order_.size());
  nodes_.push_back({{}, 0, static_cast<std::uint32_t>(order_.size()), 0});
  for (std::uint32_t n = 0; n < nodes_.size(); ++n) build(n);
}

void BoxTree::build(std::uint32_t n) {
  const std::uint32_t first = nodes_[n].first, end = nodes_[n].end;
  Box box, centres;
  for (std::uint32_t i = first; i < end; ++i) {
    box.extend(boxes_[order_[i]]);
    centres.extend(boxes_[order_[i]].center());
  }
  nodes_[n].box = box;
  if (end - first <= kLeaf) return;
  int axis = 0;
  centres.sizes().maxCoeff(&axis);
  const std::uint32_t middle = first + (end - first) / 2;
  std::nth_element(order_.begin() + first, order_.begin() + middle, order_.begin() + end,
                   [&](std::uint32_t a, std::uint32_t b) {
                     const double x = boxes_[a].min()[axis] + boxes_[a].max()[axis],
                                  y = boxes_[b].min()[axis] + boxes_[b].max()[axis];
                     return x != y ? x < y : a < b;
                   });
  nodes_[n].left = static_cast<std::uint32_t>(nodes_.size());
  nodes_.push_back({{}, first, middle, 0});
  nodes_.push_back({{}, middle, end, 0});
}

void BoxTree::below(const Pair& pair, std::vector<Pair>& next) const {
  const auto [a, b] = pair;
  const Node &x = nodes_[a], &y = nodes_[b];
  if (a == b) {
    if (x.isLeaf()) return;
    next.emplace_back(x.left, x.left);
    next.emplace_back(x.left + 1, x.left + 1);
    next.emplace_back(x.left, x.left + 1);
    return;
  }
  if (!x.box.intersects(y.box)) return;
  const bool intoX = !x.isLeaf() && (y.isLeaf() || x.end - x.first >= y.end - y.first);
  for (const std::uint32_t child : {0u, 1u}) {
    next.push_back(intoX ? Pair{x.left + child, b} : Pair{a, y.left + child});
  }
}

std::vector<BoxTree::Pair> BoxTree::nodePairs() const {
  std::vector<Pair> tasks, waiting;
  if (!nodes_.empty()) waiting.emplace_back(0, 0);
  while (!waiting.empty()) {
    const Pair pair = waiting.back();
    waiting.pop_back();
    const Node &x = nodes_[pair.first], &y = nodes_[pair.second];
    const bool isTask =
        std::max(x.end - x.first, y.end - y.first) <= kTask || (x.isLeaf() && y.isLeaf());
    if (isTask) {
      tasks.push_back(pair);
    } else {
      below(pair, waiting);
    }
  }
  return tasks;
}

}  // namespace swingroom
