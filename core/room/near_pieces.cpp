#include "core/room/near_pieces.h"

#include <algorithm>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

using Node = BoundingTree::Node;

constexpr double kOnSurfaceMm = 1e-6;

TriangleCorners placed(const TriangleCorners& t, const Pose& X) { return {X * t[0], X * t[1], X * t[2]}; }

Vector3d middleOf(const TriangleCorners& t) { return (t[0] + t[1] + t[2]) / 3; }

class NearSearch {
 public:
  NearSearch(const BoundingTree& pieces, const BoundingTree& other, const Pose& X_OP, double withinMm)
      : pieces_(pieces), other_(other), X_OP_(X_OP), withinMm_(withinMm), near_(pieces.triangles().size()) {}

  std::vector<std::uint32_t> run() {
    if (!pieces_.empty() && !other_.empty()) visit(0, 0);
    std::vector<std::uint32_t> found;
    for (std::size_t i = 0; i < near_.size(); ++i) {
      if (near_[i]) found.push_back(static_cast<std::uint32_t>(i));
    }
    return found;
  }

 private:
  void visit(std::uint32_t p, std::uint32_t o) {
    const Node& piece = pieces_.nodes()[p];
    const Node& other = other_.nodes()[o];
    const Vector3d off = other.axes.transpose() * (X_OP_ * piece.centre - other.centre);
    const Vector3d beyond = (off.cwiseAbs() - other.half).cwiseMax(0);
    if (beyond.norm() - piece.radius >= withinMm_) return;
    if (piece.isLeaf() && other.isLeaf()) return compare(piece, other);
    const bool openPiece = !piece.isLeaf() && (other.isLeaf() || piece.radius >= other.radius);
    for (std::uint32_t i = 0; i < 2; ++i) {
      if (openPiece) {
        visit(piece.first + i, o);
      } else {
        visit(p, other.first + i);
      }
    }
  }

  void compare(const Node& piece, const Node& other) {
    for (std::uint32_t i = piece.first; i < piece.first + piece.count; ++i) {
      const TriangleCorners t = placed(pieces_.triangles()[i], X_OP_);
      for (std::uint32_t k = other.first; k < other.first + other.count && !near_[i]; ++k) {
        near_[i] = closestBetweenTriangles(t, other_.triangles()[k]).distanceMm < withinMm_;
      }
    }
  }

  const BoundingTree& pieces_;
  const BoundingTree& other_;
  const Pose& X_OP_;
  double withinMm_;
  std::vector<bool> near_;
};

class InsideSearch {
 public:
  InsideSearch(const BoundingTree& pieces, const Solid& other, const Pose& X_OP)
      : pieces_(pieces), other_(other), X_OP_(X_OP) {}

  std::vector<std::uint32_t> run() {
    if (!pieces_.empty()) visit(pieces_.root());
    std::sort(found_.begin(), found_.end());
    return std::move(found_);
  }

 private:
  void visit(const Node& node) {
    const Vector3d centre = X_OP_ * node.centre;
    const Node& whole = other_.boundary().root();
    if (((centre - whole.centre).cwiseAbs() - whole.half).cwiseMax(0).norm() > node.radius) return;
    PointHints hints;
    hints.withinMm = node.radius;
    hints.enoughMm = 0.999 * node.radius;
    if (!closestPoint(other_.boundary(), centre, hints)) {  // All of it on one side.
      if (other_.contains(centre)) addAll(node);
    } else if (node.isLeaf()) {
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
        if (other_.contains(X_OP_ * middleOf(pieces_.triangles()[i]))) found_.push_back(i);
      }
    } else {
      for (std::uint32_t i = 0; i < 2; ++i) visit(pieces_.nodes()[node.first + i]);
    }
  }

  void addAll(const Node& node) {
    if (node.isLeaf()) {
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) found_.push_back(i);
      return;
    }
    for (std::uint32_t i = 0; i < 2; ++i) addAll(pieces_.nodes()[node.first + i]);
  }

  const BoundingTree& pieces_;
  const Solid& other_;
  const Pose& X_OP_;
  std::vector<std::uint32_t> found_;
};

}  // namespace

std::vector<std::uint32_t> piecesNear(const BoundingTree& pieces, const BoundingTree& other, const Pose& X_OP,
                                      double withinMm) {
  return NearSearch(pieces, other, X_OP, withinMm).run();
}

std::vector<bool> piecesOnSurface(const BoundingTree& pieces, const BoundingTree& surface) {
  std::vector<bool> on(pieces.triangles().size());
  if (surface.empty()) return on;
  PointHints hints;
  hints.withinMm = kOnSurfaceMm;
  const auto isOn = [&](const Vector3d& p) { return closestPoint(surface, p, hints).has_value(); };
  for (std::size_t i = 0; i < on.size(); ++i) {
    const TriangleCorners& t = pieces.triangles()[i];
    const Vector3d middle = middleOf(t);
    on[i] = isOn(middle);
    // A little inside its corners, which neighbours share.
    for (std::size_t k = 0; k < 3 && !on[i]; ++k) on[i] = isOn(t[k] + 1e-3 * (middle - t[k]));
  }
  return on;
}

std::vector<std::uint32_t> piecesInside(const BoundingTree& pieces, const Solid& other, const Pose& X_OP) {
  return InsideSearch(pieces, other, X_OP).run();
}

}  // namespace swingroom
