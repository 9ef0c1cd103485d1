#include "core/proximity/depth.h"

#include <algorithm>
#include <limits>
#include <optional>
#include <queue>

#include "core/mesh/polygon.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

/// A piece of the surface, a node of its tree or a triangle in the solid's frame, that may reach as deep as
/// `upperMm`.
struct Piece {
  double upperMm = 0;
  std::optional<std::uint32_t> node;
  TriangleCorners corners;

  bool operator<(const Piece& other) const { return upperMm < other.upperMm; }
};

class Search {
 public:
  Search(const BoundingTree& surface, const Solid& solid, const Pose& X_SF, const DepthSearch& search)
      : surface_(surface), solid_(solid), X_SF_(X_SF), search_(search) {
    best_.depthMm = search.atLeastMm;
  }

  Depth run() {
    addNode(0);
    while (!pieces_.empty() && queries_ < search_.mostQueries) {
      const Piece piece = pieces_.top();
      if (piece.upperMm <= best_.depthMm + search_.accuracyMm) break;
      pieces_.pop();
      if (piece.node) {
        openNode(*piece.node);
      } else {
        splitTriangle(piece.corners);
      }
    }
    best_.upperMm = pieces_.empty() ? best_.depthMm : std::max(best_.depthMm, pieces_.top().upperMm);
    if (!found_) best_.depthMm = 0;
    return best_;
  }

 private:
  /// Looks at `p`; answers how deep the surface within `radius` of it may reach: all of it, or the flat piece
  /// `flat` about `p`. Whether `p` is inside is asked last: it is dear.
  void look(const Vector3d& p, double radius, double& upperMm, const TriangleCorners* flat = nullptr) {
    ++queries_;
    const double shallowMm = best_.depthMm + search_.accuracyMm;
    const auto nearest = closestPoint(solid_.boundary(), p, {kFar, shallowMm - radius, lastNearest_});
    lastNearest_ = nearest->triangle;
    upperMm = nearest->distanceMm + radius;
    if (flat && upperMm > shallowMm) upperMm = std::min(upperMm, farthestFrom(nearest->triangle, *flat));
    if (upperMm <= shallowMm) return;
    if (!solid_.contains(p)) {
      upperMm = std::min(upperMm, radius - nearest->distanceMm);
    } else if (nearest->distanceMm > best_.depthMm) {
      pending_ = Depth{nearest->distanceMm, 0, p, nearest->point};
    }
  }

  /// How far a flat piece reaches from one triangle of the boundary, at most: the distance is convex.
  double farthestFrom(std::uint32_t triangle, const TriangleCorners& flat) const {
    const TriangleCorners& wall = solid_.boundary().triangles()[triangle];
    double farthest = 0;
    for (const Vector3d& corner : flat) {
      farthest = std::max(farthest, (closestPointOnTriangle(corner, wall) - corner).norm());
    }
    return farthest;
  }

  /// Takes what `look` saw, which counts only for a point that is on the surface.
  void take() {
    if (pending_ && pending_->depthMm > best_.depthMm) {
      best_ = *pending_;
      found_ = true;
    }
  }

  void addNode(std::uint32_t index) {
    const auto& node = surface_.nodes()[index];
    double upperMm = 0;
    pending_.reset();
    look(X_SF_ * node.centre, node.radius, upperMm);
    if (upperMm > best_.depthMm) pieces_.push({upperMm, index, {}});
  }

  void openNode(std::uint32_t index) {
    const auto& node = surface_.nodes()[index];
    if (!node.isLeaf()) {
      addNode(node.first);
      addNode(node.first + 1);
      return;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      const auto& t = surface_.triangles()[i];
      const TriangleCorners corners = {X_SF_ * t[0], X_SF_ * t[1], X_SF_ * t[2]};
      addPolygon(withinReach({corners[0], corners[1], corners[2]}));
    }
  }

  /// The piece within the solid's box: long triangles mostly lie far from a small solid.
  Polygon withinReach(Polygon polygon) const {
    const auto& box = solid_.boundary().root();
    for (int axis = 0; axis < 3 && polygon.size() >= 3; ++axis) {
      const Vector3d normal = Vector3d::Unit(axis);
      polygon = cut(polygon, {normal, box.centre[axis] + box.half[axis]}).inside;
      polygon = cut(polygon, {-normal, box.half[axis] - box.centre[axis]}).inside;
    }
    return polygon;
  }

  void addPolygon(const Polygon& polygon) {
    if (polygon.size() < 3) return;
    for (const Vector3d& corner : polygon) {
      double ignored = 0;
      pending_.reset();
      look(corner, 0, ignored);
      take();
    }
    for (std::size_t i = 1; i + 1 < polygon.size(); ++i) addTriangle({polygon[0], polygon[i], polygon[i + 1]});
  }

  void addTriangle(const TriangleCorners& corners) {
    const Vector3d centre = (corners[0] + corners[1] + corners[2]) / 3;
    double radius = 0;
    for (const Vector3d& corner : corners) radius = std::max(radius, (corner - centre).norm());
    double upperMm = 0;
    pending_.reset();
    look(centre, radius, upperMm, &corners);
    take();
    if (upperMm > best_.depthMm) pieces_.push({upperMm, std::nullopt, corners});
  }

  /// Halves the longest edge.
  void splitTriangle(const TriangleCorners& corners) {
    std::size_t longest = 0;
    for (std::size_t i = 1; i < 3; ++i) {
      const auto length = [&](std::size_t e) { return (corners[(e + 1) % 3] - corners[e]).squaredNorm(); };
      if (length(i) > length(longest)) longest = i;
    }
    const Vector3d& p = corners[longest];
    const Vector3d& q = corners[(longest + 1) % 3];
    const Vector3d& r = corners[(longest + 2) % 3];
    const Vector3d middle = 0.5 * (p + q);
    addTriangle({p, middle, r});
    addTriangle({middle, q, r});
  }

  const BoundingTree& surface_;
  const Solid& solid_;
  const Pose& X_SF_;
  DepthSearch search_;
  std::priority_queue<Piece> pieces_;
  std::optional<Depth> pending_;
  Depth best_;
  std::optional<std::uint32_t> lastNearest_;
  bool found_ = false;
  std::size_t queries_ = 0;
};

}  // namespace

Depth depthInside(const BoundingTree& surface, const Solid& solid, const Pose& X_SF, const DepthSearch& search) {
  if (surface.empty() || !solid.hasInside()) return {};
  return Search(surface, solid, X_SF, search).run();
}

}  // namespace swingroom
