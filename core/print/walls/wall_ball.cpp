#include "core/print/walls/wall_ball.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kWallTan30 = 0.57735026918962576;
constexpr double kWallNothingMm = 1e-6;

/// All that lies within 30 degrees of straight in from some point of the element, as planes.
class WallCone {
 public:
  explicit WallCone(const WallElement& element) : normal_(element.normal) {
    const TriangleCorners& t = element.corners;
    const bool isPoint = element.radiusMm == 0;
    const bool isEdge = !isPoint && t[1] == t[2];
    if (isPoint) {
      const Vector3d u = normal_.unitOrthogonal(), v = normal_.cross(u);
      for (int i = 0; i < 8; ++i)
        add(t[0], std::cos(i * 0.78539816339744831) * u + std::sin(i * 0.78539816339744831) * v);
    } else if (isEdge) {
      const Vector3d along = (t[1] - t[0]).normalized(), across = along.cross(normal_);
      add(t[1], along);
      add(t[0], -along);
      add(t[0], across);
      add(t[0], -across);
    } else {
      std::array<Vector3d, 3> outs;
      for (std::size_t i = 0; i < 3; ++i) {
        outs[i] = (t[(i + 1) % 3] - t[i]).cross(normal_).normalized();
        add(t[i], outs[i]);
      }
      for (std::size_t i = 0; i < 3; ++i) {
        const Vector3d out = outs[i] + outs[(i + 2) % 3];
        if (out.squaredNorm() > 1e-6) add(t[i], out.normalized());
      }
    }
    planes_[count_++] = {normal_, normal_.dot(t[0])};
  }

  bool misses(const BoundingTree::Node& node) const {
    for (std::size_t i = 0; i < count_; ++i) {
      const double height = planes_[i].normal.dot(node.centre) - planes_[i].offset;
      if (height > node.radius) return true;
      if (height > 0 && height > reachAlong(node, planes_[i].normal)) return true;
    }
    return false;
  }

  /// What of the polygon is inside; its corners come to `corners`.
  void clip(std::vector<Vector3d>& corners, std::vector<Vector3d>& scratch) const {
    for (std::size_t k = 0; k < count_ && !corners.empty(); ++k) {
      const auto height = [&](const Vector3d& p) {
        return planes_[k].normal.dot(p) - planes_[k].offset;
      };
      bool anyOut = false;
      for (const Vector3d& corner : corners) anyOut = anyOut || height(corner) > 0;
      if (!anyOut) continue;
      scratch.clear();
      for (std::size_t i = 0; i < corners.size(); ++i) {
        const Vector3d &p = corners[i], &q = corners[(i + 1) % corners.size()];
        const double atP = height(p), atQ = height(q);
        if (atP <= 0) scratch.push_back(p);
        if ((atP < 0 && atQ > 0) || (atP > 0 && atQ < 0))
          scratch.push_back(p + (q - p) * (atP / (atP - atQ)));
      }
      corners.swap(scratch);
    }
  }

 private:
  struct Plane {
    Vector3d normal;
    double offset;
  };

  void add(const Vector3d& through, const Vector3d& out) {
    const Vector3d m = (out + kWallTan30 * normal_).normalized();
    planes_[count_++] = {m, m.dot(through)};
  }

  Vector3d normal_;
  std::array<Plane, 9> planes_;
  std::size_t count_ = 0;
};

class BallSearch {
 public:
  BallSearch(const WallSurface& surface, const WallElement& element, double mostMm, double slack)
      : surface_(surface),
        element_(element),
        cone_(element),
        share_(1 - slack),
        diameter_(mostMm) {}

  std::optional<WallBall> run() {
    const BoundingTree& tree = surface_.tree();
    if (tree.empty()) return std::nullopt;
    std::array<std::uint32_t, 256> stack;
    std::size_t waiting = 0;
    stack[waiting++] = 0;
    while (waiting > 0 && diameter_ > kWallNothingMm) {
      const std::uint32_t index = stack[--waiting];
      const BoundingTree::Node& node = tree.nodes()[index];
      if (surface_.facesAway(index, element_.normal) || isFar(node)) continue;
      if (!node.isLeaf()) {
        std::uint32_t near = node.first, far = node.first + 1;
        if (depthOf(tree.nodes()[far].centre) < depthOf(tree.nodes()[near].centre))
          std::swap(near, far);
        stack[waiting++] = far;
        stack[waiting++] = near;
        continue;
      }
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) meet(tree.order()[i]);
    }
    return best_;
  }

 private:
  double depthOf(const Vector3d& p) const { return element_.normal.dot(element_.middle - p); }

  bool isFar(const BoundingTree::Node& node) const {
    const double depth = depthOf(node.centre);
    if (depth - node.radius >= diameter_ * share_) return true;
    if (depth - reachAlong(node, element_.normal) >= diameter_ * share_) return true;
    const double reach = diameter_ / 2 + element_.radiusMm + node.radius;
    const Vector3d centre = element_.middle - diameter_ / 2 * element_.normal;
    if ((node.centre - centre).squaredNorm() >= reach * reach) return true;
    return cone_.misses(node);
  }

  bool isOpposed(const Vector3d& normal) const {
    return normal.dot(element_.normal) <= WallSurface::kOpposedCos + 1e-9;
  }

  void meet(std::uint32_t face) {
    const Vector3d& normal = surface_.normal(face);
    if (normal.isZero()) return;
    if (isOpposed(normal)) {
      const TriangleCorners t = surface_.corners(face);
      if (std::min({depthOf(t[0]), depthOf(t[1]), depthOf(t[2])}) >= diameter_ * share_) return;
      polygon_.assign(t.begin(), t.end());
      meetPolygon(face);
      return;
    }
    if (!surface_.hasGroove(face)) return;
    for (const std::uint32_t index : surface_.grooveAt()[face]) {
      if (index == SurfaceTopology::kNone) continue;
      const WallSurface::Groove& groove = surface_.grooves()[index];
      if (!facesUs(groove)) continue;
      const auto& vertices = surface_.mesh().vertices;
      polygon_.assign({vertices[groove.from], vertices[groove.to]});
      meetPolygon(face);
    }
  }

  /// Some ball inside that touches the groove's edge looks away from us where it does.
  bool facesUs(const WallSurface::Groove& groove) const {
    const Vector3d &a = groove.normals[0], &b = groove.normals[1];
    if (isOpposed(a) || isOpposed(b)) return false;  // Its face counts as a whole.
    for (const double share : {0.5, 0.25, 0.75}) {
      const Vector3d between = (1 - share) * a + share * b;
      const double norm = between.norm();
      if (norm > 1e-6 && isOpposed(between / norm)) return true;
    }
    return false;
  }

  void meetPolygon(std::uint32_t face) {
    cone_.clip(polygon_, scratch_);
    if (polygon_.empty()) return;
    for (std::size_t i = 1; i + 1 < std::max<std::size_t>(polygon_.size(), 3); ++i) {
      const Vector3d& b = polygon_[std::min(i, polygon_.size() - 1)];
      const Vector3d& c = polygon_[std::min(i + 1, polygon_.size() - 1)];
      shrinkTo({polygon_[0], b, c}, face);
    }
  }

  ClosestPoints closestTo(const TriangleCorners& other) const {
    const Vector3d in = -diameter_ / 2 * element_.normal;
    if (element_.radiusMm == 0) {
      const Vector3d centre = element_.middle + in;
      const Vector3d q = closestPointOnTriangle(centre, other);
      return {centre, q, (q - centre).norm()};
    }
    const TriangleCorners& t = element_.corners;
    return closestBetweenTriangles({t[0] + in, t[1] + in, t[2] + in}, other);
  }

  /// The ball over any point of the element, until `other` only touches it.
  void shrinkTo(const TriangleCorners& other, std::uint32_t face) {
    for (int i = 0; i < 100 && diameter_ > kWallNothingMm; ++i) {
      const ClosestPoints pair = closestTo(other);
      if (!(pair.distanceMm < diameter_ / 2 * share_)) return;
      const Vector3d at = pair.onA + diameter_ / 2 * element_.normal;
      const double depth = element_.normal.dot(at - pair.onB);
      if (!(depth > 0)) return;
      const double smaller = (pair.onB - at).squaredNorm() / depth;
      if (!(smaller < diameter_)) return;
      diameter_ = smaller <= kWallNothingMm ? 0 : smaller;
      best_ = WallBall{diameter_, at, pair.onB, face};
    }
  }

  const WallSurface& surface_;
  const WallElement& element_;
  WallCone cone_;
  double share_;  ///< Of the diameter: above it no ball is sought.
  double diameter_;
  std::optional<WallBall> best_;
  std::vector<Vector3d> polygon_, scratch_;
};

}  // namespace

WallElement WallElement::point(const Vector3d& p, const Vector3d& normal) {
  return {{p, p, p}, normal, p, 0};
}

WallElement WallElement::edge(const Vector3d& a, const Vector3d& b, const Vector3d& normal) {
  return {{a, b, b}, normal, (a + b) / 2, (b - a).norm() / 2};
}

WallElement WallElement::piece(const TriangleCorners& corners, const Vector3d& normal) {
  const Vector3d middle = (corners[0] + corners[1] + corners[2]) / 3;
  double squared = 0;
  for (const Vector3d& corner : corners)
    squared = std::max(squared, (corner - middle).squaredNorm());
  return {corners, normal, middle, std::sqrt(squared)};
}

double WallBall::cosOff(const Vector3d& normal) const {
  const Vector3d across = at - other;
  const double length = across.norm();
  return length > 0 ? across.dot(normal) / length : 1;
}

std::optional<WallBall> smallestBall(const WallSurface& surface, const WallElement& element,
                                     double mostMm, double slack) {
  return BallSearch(surface, element, mostMm, slack).run();
}

}  // namespace swingroom
