#include "core/tree/bounding_tree.h"

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <algorithm>
#include <numeric>
#include <utility>

namespace swingroom {
namespace {

using Eigen::AlignedBox3d;
using Eigen::Matrix3d;
using Eigen::Vector3d;
using Node = BoundingTree::Node;

constexpr double kRounding = 4e-15;  ///< Of lengths: what fitting a box may round off.

/// Area, its first and its second moments about the frame's origin. They add up.
struct Moments {
  double area = 0;
  Vector3d first = Vector3d::Zero();
  Matrix3d second = Matrix3d::Zero();

  Moments& operator+=(const Moments& other) {
    area += other.area;
    first += other.first;
    second += other.second;
    return *this;
  }
};

/// Of a flat triangle: the integral of x x^T is area / 12 (9 m m^T + sum of p p^T), m the mean of its corners.
Moments momentsOf(const TriangleCorners& t) {
  Moments moments;
  moments.area = 0.5 * (t[1] - t[0]).cross(t[2] - t[0]).norm();
  const Vector3d mean = (t[0] + t[1] + t[2]) / 3;
  moments.first = moments.area * mean;
  moments.second = 9 * mean * mean.transpose();
  for (const Vector3d& p : t) moments.second += p * p.transpose();
  moments.second *= moments.area / 12;
  return moments;
}

/// Right-handed, with the third column along `normal` and the first as near `along` as can be.
Matrix3d frameOf(const Vector3d& normal, const Vector3d& along) {
  Matrix3d axes;
  axes.col(2) = normal.normalized();
  Vector3d u = along - along.dot(axes.col(2)) * axes.col(2);
  if (!(u.squaredNorm() > 1e-12 * along.squaredNorm())) u = axes.col(2).unitOrthogonal();
  axes.col(0) = u.normalized();
  axes.col(1) = axes.col(2).cross(axes.col(0)).normalized();
  return axes;
}

/// The directions in which a patch of surface spreads least and most.
Matrix3d principalAxes(const Moments& moments) {
  if (!(moments.area > 0)) return Matrix3d::Identity();
  const Vector3d mean = moments.first / moments.area;
  const Matrix3d spread = moments.second / moments.area - mean * mean.transpose();
  Eigen::SelfAdjointEigenSolver<Matrix3d> solver;
  solver.computeDirect(spread);
  const Matrix3d& vectors = solver.eigenvectors();
  if (!vectors.allFinite() || vectors.col(0).squaredNorm() < 0.5) return Matrix3d::Identity();
  return frameOf(vectors.col(0), vectors.col(2));
}

double areaOf(const Vector3d& half) {
  return half[0] * half[1] + half[1] * half[2] + half[2] * half[0];
}

class Builder {
 public:
  Builder(const TriangleMesh& mesh, std::vector<Node>& nodes, std::vector<TriangleCorners>& sorted,
          std::vector<std::uint32_t>& order)
      : mesh_(mesh), nodes_(nodes), sorted_(sorted), order_(order) {}

  void run() {
    const std::size_t count = mesh_.triangles.size();
    order_.resize(count);
    std::iota(order_.begin(), order_.end(), 0u);
    centroids_.reserve(count);
    for (std::size_t t = 0; t < count; ++t) {
      centroids_.push_back((mesh_.corner(t, 0) + mesh_.corner(t, 1) + mesh_.corner(t, 2)) / 3);
    }
    nodes_.reserve(count);
    nodes_.resize(1);
    divide(0, 0, count);
    sorted_.reserve(count);
    for (const std::uint32_t t : order_) {
      sorted_.push_back({mesh_.corner(t, 0), mesh_.corner(t, 1), mesh_.corner(t, 2)});
    }
    fit(0);
    nodes_.shrink_to_fit();
  }

 private:
  /// What is known of a node's triangles once its children are fitted.
  struct Fitted {
    Moments moments;
    AlignedBox3d box;
    std::size_t first = 0, count = 0;
  };

  /// At the middle triangle along the axis on which the centroids spread most; full leaves.
  std::size_t split(std::size_t first, std::size_t count) {
    AlignedBox3d spread;
    for (std::size_t i = first; i < first + count; ++i) spread.extend(centroids_[order_[i]]);
    Eigen::Index axis = 0;
    spread.sizes().maxCoeff(&axis);
    constexpr std::size_t kLeaf = BoundingTree::kLeafTriangles;
    const std::size_t leftCount = (count / 2 + kLeaf - 1) / kLeaf * kLeaf;
    keys_.clear();
    for (std::size_t i = first; i < first + count; ++i)
      keys_.emplace_back(centroids_[order_[i]][axis], order_[i]);
    std::nth_element(keys_.begin(), keys_.begin() + static_cast<std::ptrdiff_t>(leftCount),
                     keys_.end());
    for (std::size_t i = 0; i < count; ++i) order_[first + i] = keys_[i].second;
    return leftCount;
  }

  void divide(std::size_t node, std::size_t first, std::size_t count) {
    if (count <= BoundingTree::kLeafTriangles) {
      nodes_[node].first = static_cast<std::uint32_t>(first);
      nodes_[node].count = static_cast<std::uint32_t>(count);
      return;
    }
    const std::size_t leftCount = split(first, count);
    const std::size_t left = nodes_.size();
    nodes_[node].first = static_cast<std::uint32_t>(left);
    nodes_.resize(left + 2);
    divide(left, first, leftCount);
    divide(left + 1, first + leftCount, count - leftCount);
  }

  Fitted fit(std::size_t index) {
    Fitted fitted;
    if (nodes_[index].isLeaf()) {
      fitted.first = nodes_[index].first;
      fitted.count = nodes_[index].count;
      for (std::size_t i = fitted.first; i < fitted.first + fitted.count; ++i) {
        fitted.moments += momentsOf(sorted_[i]);
        for (const Vector3d& p : sorted_[i]) fitted.box.extend(p);
      }
    } else {
      const Fitted left = fit(nodes_[index].first), right = fit(nodes_[index].first + 1);
      fitted = left;
      fitted.count += right.count;
      fitted.moments += right.moments;
      fitted.box.extend(right.box);
    }
    place(index, fitted);
    return fitted;
  }

  /// The smallest of an upright box and ones turned like the patch.
  void place(std::size_t index, const Fitted& fitted) {
    Node& node = nodes_[index];
    node.axes = Matrix3d::Identity();
    setBox(node, fitted.box);
    if (index != 0) {
      tryAxes(node, principalAxes(fitted.moments), fitted);
      if (node.isLeaf()) tryAxes(node, frameOf(node.axes.col(2), longestEdge(fitted)), fitted);
    }
    const double scale = node.centre.norm() + node.half.norm();
    node.half.array() += kRounding * scale;
    node.radius = node.half.norm() * (1 + kRounding);
  }

  static void setBox(Node& node, const AlignedBox3d& along) {
    node.centre = node.axes * along.center();
    node.half = 0.5 * along.sizes();
  }

  void tryAxes(Node& node, const Matrix3d& axes, const Fitted& fitted) const {
    constexpr std::size_t kAtOnce = 32;  // The box only grows: what is no smaller by now never is.
    const double areaBefore = areaOf(node.half);
    const std::size_t end = fitted.first + fitted.count;
    AlignedBox3d box;
    for (std::size_t first = fitted.first; first < end; first += kAtOnce) {
      for (std::size_t i = first; i < std::min(end, first + kAtOnce); ++i) {
        for (const Vector3d& p : sorted_[i]) box.extend(Vector3d(axes.transpose() * p));
      }
      if (areaOf(0.5 * box.sizes()) >= areaBefore) return;
    }
    node.axes = axes;
    setBox(node, box);
  }

  Vector3d longestEdge(const Fitted& fitted) const {
    Vector3d longest = Vector3d::Zero();
    for (std::size_t i = fitted.first; i < fitted.first + fitted.count; ++i) {
      for (std::size_t k = 0; k < 3; ++k) {
        const Vector3d edge = sorted_[i][(k + 1) % 3] - sorted_[i][k];
        if (edge.squaredNorm() > longest.squaredNorm()) longest = edge;
      }
    }
    return longest;
  }

  const TriangleMesh& mesh_;
  std::vector<Node>& nodes_;
  std::vector<TriangleCorners>& sorted_;
  std::vector<std::uint32_t>& order_;
  std::vector<Vector3d> centroids_;
  std::vector<std::pair<double, std::uint32_t>> keys_;  ///< Of the split at work: place and triangle.
};

}  // namespace

BoundingTree::BoundingTree(const TriangleMesh& mesh) {
  if (!mesh.triangles.empty()) Builder(mesh, nodes_, triangles_, order_).run();
}

BoundingTree BoundingTree::scaledAbout(const Vector3d& centre, double factor) const {
  BoundingTree scaled = *this;
  for (Node& node : scaled.nodes_) {
    node.centre = centre + factor * (node.centre - centre);
    node.half *= factor;
    node.half.array() += kRounding * (node.centre.norm() + centre.norm() + node.half.norm());
    node.radius = node.half.norm() * (1 + kRounding);
  }
  for (TriangleCorners& t : scaled.triangles_) {
    for (Vector3d& p : t) p = centre + factor * (p - centre);
  }
  return scaled;
}

}  // namespace swingroom
