#include "sample_assemblies/sculpt/refine.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <tuple>
#include <unordered_map>

namespace swingroom::samples {
namespace {

using Eigen::Vector3d;

constexpr double kNoArea = 1e-7;     // mm², twice the triangle's.
constexpr double kOnePlane = 0.995;  // Cosine of the angle between two triangles.
constexpr double kFlatMm = 0.002;

/// Triangles whose edges can be halved, and turned inside flat faces.
class Refiner {
 public:
  Refiner(const TriangleMesh& mesh, const Fineness& fineness) : fineness_(fineness), mesh_(mesh) {
    for (std::uint32_t t = 0; t < mesh_.triangles.size(); ++t) enter(t);
    for (const Triangle& corners : mesh.triangles) {
      for (std::size_t i = 0; i < 3; ++i) unsettled_.emplace_back(corners[i], corners[(i + 1) % 3]);
    }
    settle();
    for (const Triangle& corners : mesh.triangles) {
      for (std::size_t i = 0; i < 3; ++i) ask(corners[i], corners[(i + 1) % 3]);
    }
  }

  TriangleMesh take() {
    while (!waiting_.empty()) {
      const auto [length, low, high] = waiting_.top();
      if (!at_.contains(keyOf(low, high))) {
        waiting_.pop();
      } else {
        halveLongestBeside(low, high);
      }
    }
    return std::move(mesh_);
  }

 private:
  using Key = std::uint64_t;
  using Wait = std::tuple<double, std::uint32_t, std::uint32_t>;

  static Key keyOf(std::uint32_t from, std::uint32_t to) {
    return Key{std::min(from, to)} << 32 | std::max(from, to);
  }

  const Vector3d& point(std::uint32_t vertex) const { return mesh_.vertices[vertex]; }
  double length(std::uint32_t a, std::uint32_t b) const { return (point(a) - point(b)).norm(); }
  bool locked(std::uint32_t a, std::uint32_t b) const {
    return fineness_.locked(point(a)) && fineness_.locked(point(b));
  }

  void enter(std::uint32_t triangle) {
    const Triangle& corners = mesh_.triangles[triangle];
    for (std::size_t i = 0; i < 3; ++i) {
      at_[keyOf(corners[i], corners[(i + 1) % 3])].push_back(triangle);
    }
  }

  void leave(std::uint32_t triangle) {
    const Triangle& corners = mesh_.triangles[triangle];
    for (std::size_t i = 0; i < 3; ++i) {
      const auto edge = at_.find(keyOf(corners[i], corners[(i + 1) % 3]));
      std::erase(edge->second, triangle);
      if (edge->second.empty()) at_.erase(edge);
    }
  }

  bool strays(const Vector3d& a, const Vector3d& b) const {
    const Vector3d movedA = fineness_.moved(a);
    const Vector3d movedB = fineness_.moved(b);
    for (const double share : {0.25, 0.5, 0.75}) {
      const Vector3d straight = movedA + share * (movedB - movedA);
      const Vector3d place = fineness_.moved(a + share * (b - a));
      if ((place - straight).norm() > fineness_.strayMm) return true;
    }
    return false;
  }

  bool tooLong(std::uint32_t from, std::uint32_t to) const {
    const double mm = length(from, to);
    const Vector3d& a = point(from);
    const Vector3d& b = point(to);
    for (const double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
      if (mm > fineness_.edgeMm(a + share * (b - a))) return true;
    }
    return mm > 2 * fineness_.leastMm && strays(a, b);
  }

  void ask(std::uint32_t a, std::uint32_t b) {
    const auto [low, high] = std::minmax(a, b);
    if (locked(a, b) || !asked_.try_emplace(keyOf(a, b), true).second) return;
    if (tooLong(low, high)) waiting_.emplace(length(a, b), low, high);
  }

  /// The longest edge of the edge's triangles that may be halved.
  std::pair<std::uint32_t, std::uint32_t> longestBeside(std::uint32_t a, std::uint32_t b) const {
    std::pair longest{a, b};
    double mm = length(a, b) * 1.05;  // Nearly as long: rather the one that was asked for.
    for (const std::uint32_t t : at_.at(keyOf(a, b))) {
      const Triangle& corners = mesh_.triangles[t];
      for (std::size_t i = 0; i < 3; ++i) {
        const std::uint32_t from = corners[i], to = corners[(i + 1) % 3];
        if (length(from, to) <= mm || locked(from, to)) continue;
        longest = std::minmax(from, to);
        mm = length(from, to);
      }
    }
    return longest;
  }

  /// Along longer and longer edges, so that angles stay wide.
  void halveLongestBeside(std::uint32_t a, std::uint32_t b) {
    for (auto next = longestBeside(a, b); next != std::pair{a, b}; next = longestBeside(a, b)) {
      std::tie(a, b) = next;
    }
    halve(a, b);
  }

  void halve(std::uint32_t a, std::uint32_t b) {
    const auto middle = static_cast<std::uint32_t>(mesh_.vertices.size());
    mesh_.vertices.push_back((point(a) + point(b)) / 2);
    const std::vector<std::uint32_t> beside = at_.at(keyOf(a, b));
    for (const std::uint32_t t : beside) {
      leave(t);
      Triangle first = mesh_.triangles[t], second = first;
      std::replace(first.begin(), first.end(), b, middle);
      std::replace(second.begin(), second.end(), a, middle);
      mesh_.triangles[t] = first;
      enter(t);
      mesh_.triangles.push_back(second);
      enter(static_cast<std::uint32_t>(mesh_.triangles.size() - 1));
    }
    for (const std::uint32_t t : beside) {
      const std::uint32_t corner = thirdOf(t, a, middle);
      ask(corner, middle);
      unsettled_.insert(unsettled_.end(), {{corner, a}, {corner, b}});
    }
    ask(middle, b);
    ask(middle, a);
    settle();
  }

  std::uint32_t thirdOf(std::uint32_t triangle, std::uint32_t a, std::uint32_t b) const {
    const Triangle& corners = mesh_.triangles[triangle];
    return *std::find_if(corners.begin(), corners.end(),
                         [&](std::uint32_t c) { return c != a && c != b; });
  }

  Vector3d across(std::uint32_t a, std::uint32_t b, std::uint32_t c) const {
    return (point(b) - point(a)).cross(point(c) - point(a));
  }

  /// Whether the other diagonal of the edge's two triangles, which lie in one plane, makes fuller
  /// ones. `left` and `right` are their far corners; the edge runs from `a` to `b` in the left one.
  bool betterTurned(std::uint32_t a, std::uint32_t b, std::uint32_t left,
                    std::uint32_t right) const {
    const Vector3d first = across(a, b, left), second = across(b, a, right);
    const Vector3d normal = (first + second).normalized();
    if (first.norm() < kNoArea || second.norm() < kNoArea) {
      if (first.norm() + second.norm() < kNoArea) return false;
    } else if (first.normalized().dot(second.normalized()) < kOnePlane) {
      return false;
    }
    if (std::abs((point(right) - point(left)).dot(normal)) > kFlatMm ||
        std::abs((point(b) - point(left)).dot(normal)) > kFlatMm) {
      return false;
    }
    if (across(left, right, b).dot(normal) < kNoArea ||
        across(right, left, a).dot(normal) < kNoArea)
      return false;
    const Vector3d la = point(a) - point(left), lb = point(b) - point(left);
    const Vector3d ra = point(a) - point(right), rb = point(b) - point(right);
    // Sine of the sum of the two angles that look at the edge.
    return la.cross(lb).norm() * ra.dot(rb) + la.dot(lb) * ra.cross(rb).norm() < -1e-9;
  }

  /// Turns edges inside flat faces until no angles that look at one add up to more than a half
  /// turn.
  void settle() {
    while (!unsettled_.empty()) {
      auto [a, b] = unsettled_.back();
      unsettled_.pop_back();
      const auto edge = at_.find(keyOf(a, b));
      if (edge == at_.end() || edge->second.size() != 2 || locked(a, b)) continue;
      const std::uint32_t first = edge->second[0], second = edge->second[1];
      if (!follows(first, a, b)) std::swap(a, b);
      const std::uint32_t left = thirdOf(first, a, b), right = thirdOf(second, a, b);
      if (at_.contains(keyOf(left, right)) || !betterTurned(a, b, left, right)) continue;
      leave(first);
      leave(second);
      mesh_.triangles[first] = {left, right, b};
      mesh_.triangles[second] = {right, left, a};
      enter(first);
      enter(second);
      ask(left, right);
      unsettled_.insert(unsettled_.end(), {{a, left}, {left, b}, {b, right}, {right, a}});
    }
  }

  bool follows(std::uint32_t triangle, std::uint32_t a, std::uint32_t b) const {
    const Triangle& corners = mesh_.triangles[triangle];
    for (std::size_t i = 0; i < 3; ++i) {
      if (corners[i] == a && corners[(i + 1) % 3] == b) return true;
    }
    return false;
  }

  const Fineness& fineness_;
  TriangleMesh mesh_;
  std::unordered_map<Key, std::vector<std::uint32_t>> at_;
  std::unordered_map<Key, bool> asked_;
  std::priority_queue<Wait> waiting_;
  std::vector<std::pair<std::uint32_t, std::uint32_t>> unsettled_;
};

}  // namespace

TriangleMesh refined(const TriangleMesh& mesh, const Fineness& fineness) {
  return Refiner(mesh, fineness).take();
}

}  // namespace swingroom::samples
