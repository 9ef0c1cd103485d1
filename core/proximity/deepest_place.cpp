#include "core/proximity/deepest_place.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr std::uint32_t kNoNode = 0xffffffff;
constexpr std::uint32_t kNoWall = 0xffffffff;
constexpr double kEqualMm = 1e-9;
/// Share of what a bound is loose by anyway that nearest points may be off.
constexpr double kSlackOfReach = 0.1;
constexpr int kMostCompared = 8;  ///< Triangles of the boundary, before a piece is rather halved.
constexpr int kDiveHalvings = 3;  ///< 8 spans of each first one are dived into for a good start.
/// Shortest span, in the sequence: what is left then is left.
constexpr double kShortestSpan = 1e-9;

enum class Side : std::uint8_t { unknown, inside, outside };

/// A piece of a surface over a span of time: a node of its tree, or a flat piece of a triangle.
struct Piece {
  double upperMm = kFar;
  std::uint32_t node = kNoNode;
  std::uint32_t span = 0;
  std::uint32_t wall = 0;  ///< The boundary's triangle nearest to the centre.
  std::uint16_t which = 0;
  Side side = Side::unknown;  ///< Of the centre, in the middle of the span.
  std::uint32_t otherWall = kNoWall;  ///< Another triangle that is near to some corner of it.
  bool hasWall = false;
  bool halveTime = false;
  std::uint8_t edge = 0;  ///< Of a flat piece: the one to halve.
  /// The centre's distance from the boundary, in the middle; the true one is up to `slackMm` less.
  double centreMm = 0, slackMm = 0;
  Vector3d centre_S = Vector3d::Zero();
  Vector3d peak_S = Vector3d::Constant(kFar);  ///< The place that was last looked at closely.
  TriangleCorners corners_F{Vector3d::Zero(), Vector3d::Zero(), Vector3d::Zero()};
};

/// A convex bound of the distance from the boundary, at a flat piece's corners at both ends of a span:
/// its greatest value bounds all of the piece. Of a node: of the whole, in [0].
struct Bound {
  std::array<double, 6> mm;
  int count = 0;

  double upperMm() const { return *std::max_element(mm.begin(), mm.begin() + count); }
  int peak() const {
    return static_cast<int>(std::max_element(mm.begin(), mm.begin() + count) - mm.begin());
  }
};

/// The lesser of two bounds is at most any mean of the two, which is convex too: between two faces
/// of a sheet no point is farther than half the sheet from both. The best mean, or nearly.
double upperOfBoth(const Bound& a, const Bound& b) {
  double least = std::min(a.upperMm(), b.upperMm());
  int high = a.peak(), low = b.peak();  // Lines over b's weight: falling and rising.
  for (int round = 0; round < 3; ++round) {
    const double fall = a.mm[high] - b.mm[high], rise = b.mm[low] - a.mm[low];
    if (fall <= 0 || rise <= 0) break;
    const double weight = std::clamp((a.mm[high] - a.mm[low]) / (fall + rise), 0.0, 1.0);
    double greatest = 0;
    int at = 0;
    for (int k = 0; k < a.count; ++k) {
      const double mm = (1 - weight) * a.mm[k] + weight * b.mm[k];
      if (mm > greatest) greatest = mm, at = k;
    }
    least = std::min(least, greatest);
    if (at == high || at == low) break;
    (a.mm[at] > b.mm[at] ? high : low) = at;
  }
  return least;
}

class Search {
 public:
  Search(const std::vector<Reaching>& surfaces, PlacedSpans& spans, const DeepestSearch& search)
      : surfaces_(surfaces), spans_(spans), search_(search) {
    best_.depthMm = search.atLeastMm;
    marginMm_ = std::min(search.fineMm, search.accuracyMm);
  }

  DeepestPlace run(const std::vector<std::uint32_t>& first) {
    for (const std::uint32_t span : first) {
      for (std::size_t w = 0; w < surfaces_.size(); ++w) dive(w, span, kDiveHalvings);
    }
    for (const std::uint32_t span : first) {
      for (std::size_t w = 0; w < surfaces_.size(); ++w) addRoot(w, span);
    }
    while (!heap_.empty() && !ended()) {
      std::pop_heap(heap_.begin(), heap_.end());
      const std::uint32_t slot = heap_.back().slot;
      heap_.pop_back();
      const Piece piece = pool_[slot];
      free_.push_back(slot);
      if (getenv("DBG") && ++pops_ % atoi(getenv("DBG")) == 0) {
        const PlacedSpan& sp = spanOf(piece);
        const Shape sh = shapeOf(piece);
        const double tr = sp.still ? 0 : spans_.travelMm(piece.span, surfaces_[piece.which].side, piece.centre_S, sh.radius);
        const double be = sp.still ? 0 : spans_.bendMm(piece.span, surfaces_[piece.which].side, piece.centre_S, sh.radius);
        fprintf(stderr, "pop %zu best %.5f up %.5f w%d %s side %d r %.4f travel %.4f bend %.5f centre %.4f t[%.4f %.4f] %s wall %u other %u edges %.3f %.3f %.3f c %.2f %.2f %.2f\n", pops_, best_.depthMm, piece.upperMm, piece.which, piece.node==kNoNode?"flat":"node", int(piece.side), sh.radius, tr, be, piece.centreMm, sp.from, sp.to, piece.halveTime?"time":"size", piece.wall, piece.otherWall,
        (piece.corners_F[1]-piece.corners_F[0]).norm(),(piece.corners_F[2]-piece.corners_F[1]).norm(),(piece.corners_F[0]-piece.corners_F[2]).norm(), piece.centre_S.x(), piece.centre_S.y(), piece.centre_S.z());
      }
      open(piece);
    }
    best_.upperMm = std::max(best_.depthMm, leftMm_);
    if (!heap_.empty()) best_.upperMm = std::max(best_.upperMm, heap_.front().upperMm);
    if (!found_) best_.depthMm = 0;
    best_.queries = queries_;
    return best_;
  }

 private:
  struct Waiting {
    double upperMm;
    std::uint64_t order;
    std::uint32_t slot;
    /// The highest bound first; of equal ones the one that came first.
    bool operator<(const Waiting& other) const {
      return upperMm != other.upperMm ? upperMm < other.upperMm : order > other.order;
    }
  };

  bool ended() const {
    if (search_.enoughMm > 0 && found_ && best_.depthMm >= search_.enoughMm) return true;
    const double openMm = heap_.front().upperMm - best_.depthMm;
    if (openMm <= marginMm_) return true;
    if (openMm <= search_.accuracyMm) return queries_ >= search_.fineQueries;
    return queries_ >= search_.mostQueries;
  }

  double shallowMm() const { return best_.depthMm + marginMm_; }
  const BoundingTree& boundaryOf(const Piece& piece) const {
    return surfaces_[piece.which].solid->boundary();
  }
  const TriangleCorners& wallOf(const Piece& piece, std::uint32_t triangle) const {
    return boundaryOf(piece).triangles()[triangle];
  }
  const PlacedSpan& spanOf(const Piece& piece) const {
    return spans_.at(piece.span, surfaces_[piece.which].side);
  }

  static double distance(const Vector3d& p, const TriangleCorners& triangle) {
    return (closestPointOnTriangle(p, triangle) - p).norm();
  }

  // ---- a good start ----

  /// Goes down to one leaf where the surface seems deepest in the middle of the span, and looks there.
  void dive(std::size_t which, std::uint32_t span, int halvings) {
    const Reaching& reaching = surfaces_[which];
    const PlacedSpan& placed = spans_.at(span, reaching.side);
    if (halvings > 0 && !placed.still) {
      for (const std::uint32_t half : spans_.halvesOf(span)) dive(which, half, halvings - 1);
      return;
    }
    const auto& nodes = reaching.surface->nodes();
    std::uint32_t node = 0;
    std::optional<std::uint32_t> hint;
    while (!nodes[node].isLeaf()) {
      const std::uint32_t left = nodes[node].first;
      const double atLeft = promise(reaching, placed, nodes[left], hint);
      const double atRight = promise(reaching, placed, nodes[left + 1], hint);
      node = atRight > atLeft ? left + 1 : left;
    }
    for (std::uint32_t i = nodes[node].first; i < nodes[node].first + nodes[node].count; ++i) {
      for (const Vector3d& corner : reaching.surface->triangles()[i]) {
        hint = tryPlace(which, placed.X_SF_middle, 0.5 * (placed.from + placed.to),
                        placed.X_SF_middle * corner, hint, false);
      }
    }
  }

  double promise(const Reaching& reaching, const PlacedSpan& placed, const BoundingTree::Node& node,
                 std::optional<std::uint32_t>& hint) {
    const Vector3d p = placed.X_SF_middle * node.centre;
    ++queries_;
    const auto nearest = closestPoint(
        reaching.solid->boundary(), p, {kFar, 0, kSlackOfReach * node.radius, hint});
    hint = nearest->triangle;
    const bool inside = reaching.solid->contains(p);
    return (inside ? nearest->distanceMm : -nearest->distanceMm) + node.radius;
  }

  /// Looks at a place on a surface, and keeps it if it is deeper than all so far.
  /// @param isInside  Known to be.
  /// @returns A triangle of the boundary that is near, nearer than the deepest so far if there is one.
  std::uint32_t tryPlace(std::size_t which, const Pose& X_SF, double instant, const Vector3d& p_S,
                         std::optional<std::uint32_t> hint, bool isInside) {
    ++queries_;
    const Solid& solid = *surfaces_[which].solid;
    const auto nearest = closestPoint(solid.boundary(), p_S, {kFar, best_.depthMm, 0, hint});
    if (nearest->distanceMm > best_.depthMm && (isInside || solid.contains(p_S))) {
      keep(which, X_SF, instant, p_S, *nearest);
    }
    return nearest->triangle;
  }

  void keep(std::size_t which, const Pose& X_SF, double instant, const Vector3d& p_S,
            const SurfacePoint& nearest) {
    found_ = true;
    best_.depthMm = nearest.distanceMm;
    best_.side = surfaces_[which].side;
    best_.instant = instant;
    best_.X_SF = X_SF;
    best_.point_S = p_S;
    best_.nearest_S = nearest.point;
  }

  // ---- pieces ----

  void addRoot(std::size_t which, std::uint32_t span) {
    Piece piece;
    piece.which = static_cast<std::uint16_t>(which);
    piece.span = span;
    piece.node = 0;
    add(piece, piece);
  }

  void open(const Piece& parent) {
    Piece child = parent;
    if (parent.halveTime) {
      for (const std::uint32_t half : spans_.halvesOf(parent.span)) {
        child.span = half;
        add(child, parent);
      }
      return;
    }
    if (parent.node == kNoNode) return halvePiece(parent);
    const BoundingTree& surface = *surfaces_[parent.which].surface;
    const auto& node = surface.nodes()[parent.node];
    if (node.isLeaf()) {
      child.node = kNoNode;
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
        child.corners_F = surface.triangles()[i];
        add(child, parent);
      }
      return;
    }
    for (const std::uint32_t half : {node.first, node.first + 1}) {
      child.node = half;
      add(child, parent);
    }
  }

  void halvePiece(const Piece& parent) {
    const TriangleCorners& corners = parent.corners_F;
    const std::size_t edge = parent.edge;
    const Vector3d p = corners[edge], q = corners[(edge + 1) % 3], r = corners[(edge + 2) % 3];
    const Vector3d middle = 0.5 * (p + q);
    Piece child = parent;
    child.corners_F = {p, middle, r};
    add(child, parent);
    child.corners_F = {middle, q, r};
    add(child, parent);
  }

  /// Keeps `piece` for later if it may reach deeper than what is found.
  void add(Piece piece, const Piece& parent) {
    assess(piece, parent);
    if (piece.upperMm <= shallowMm()) return;
    std::uint32_t slot;
    if (free_.empty()) {
      slot = static_cast<std::uint32_t>(pool_.size());
      pool_.push_back(piece);
    } else {
      slot = free_.back();
      free_.pop_back();
      pool_[slot] = piece;
    }
    heap_.push_back({piece.upperMm, order_++, slot});
    std::push_heap(heap_.begin(), heap_.end());
  }

  struct Shape {
    Vector3d centre_F;
    double radius = 0;
  };

  Shape shapeOf(const Piece& piece) const {
    if (piece.node != kNoNode) {
      const auto& node = surfaces_[piece.which].surface->nodes()[piece.node];
      return {node.centre, node.radius};
    }
    const auto& c = piece.corners_F;
    Shape shape{(c[0] + c[1] + c[2]) / 3, 0};
    for (const Vector3d& corner : c) {
      shape.radius = std::max(shape.radius, (corner - shape.centre_F).norm());
    }
    return shape;
  }

  /// What the bounds of one piece are made from.
  struct Frame {
    const PlacedSpan* span = nullptr;
    double radius = 0, travelMm = 0, bendMm = 0;
    Vector3d centreFrom_S, centreTo_S;
    TriangleCorners from_S, to_S;  ///< A flat piece's corners at both ends.
  };

  void assess(Piece& piece, const Piece& parent) {
    const Reaching& reaching = surfaces_[piece.which];
    Frame frame;
    frame.span = &spanOf(piece);
    const PlacedSpan& span = *frame.span;
    const Shape shape = shapeOf(piece);
    frame.radius = shape.radius;
    piece.centre_S = span.X_SF_middle * shape.centre_F;
    frame.centreFrom_S = span.still ? piece.centre_S : span.X_SF_from * shape.centre_F;
    frame.centreTo_S = span.still ? piece.centre_S : span.X_SF_to * shape.centre_F;
    if (!span.still) {
      frame.travelMm = spans_.travelMm(piece.span, reaching.side, piece.centre_S, shape.radius);
      frame.bendMm = spans_.bendMm(piece.span, reaching.side, piece.centre_S, shape.radius);
    }
    const bool flat = piece.node == kNoNode;
    if (flat) {
      for (int i = 0; i < 3; ++i) {
        frame.from_S[i] = span.X_SF_from * piece.corners_F[i];
        frame.to_S[i] = span.still ? frame.from_S[i] : span.X_SF_to * piece.corners_F[i];
      }
    }
    piece.upperMm = parent.upperMm;
    inheritSide(piece, parent);

    Bound own, other;
    if (parent.hasWall) {
      own = boundByWall(piece, frame, parent.wall);
      if (lower(piece, own.upperMm() + frame.bendMm)) return;
      if (flat && parent.otherWall != kNoWall) {
        other = boundByWall(piece, frame, parent.otherWall);
        if (lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      }
    }
    ++queries_;
    PointHints hints;
    const double reachMm = frame.radius + frame.travelMm;
    hints.enoughMm = shallowMm() - reachMm;
    hints.slackMm = kSlackOfReach * std::min(reachMm, std::max(0.0, piece.upperMm - shallowMm()));
    if (parent.hasWall) hints.triangle = parent.wall;
    const auto nearest = closestPoint(reaching.solid->boundary(), piece.centre_S, hints);
    piece.centreMm = nearest->distanceMm;
    piece.slackMm = hints.slackMm;
    const bool newWall = !parent.hasWall || nearest->triangle != parent.wall;
    piece.hasWall = true;
    piece.wall = nearest->triangle;
    if (lower(piece, piece.centreMm + reachMm)) return;
    if (newWall) {
      own = boundByWall(piece, frame, piece.wall);
      if (lower(piece, own.upperMm() + frame.bendMm)) return;
    }
    if (flat) {
      if (newWall && other.count > 0 && lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      if (lower(piece, addNeighbour(piece, frame, piece.wall, own) + frame.bendMm)) return;
      if (other.count > 0 && lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      if (lookClosely(piece, frame, own)) {
        other = boundByWall(piece, frame, piece.otherWall);
        if (lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      }
      if (other.count > 0) {
        addNeighbour(piece, frame, piece.otherWall, other);
        if (lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      }
    }
    const double outsideMm = reachMm - (piece.centreMm - piece.slackMm);
    if (piece.side == Side::unknown && outsideMm <= shallowMm()) judge(piece);
    if (piece.side == Side::outside) {
      if (lower(piece, outsideMm)) return;
      // Nothing of it reaches the boundary: all of it stays outside.
      if (flat && isClear(piece, frame)) {
        piece.upperMm = 0;
        return;
      }
    }
    chooseHalving(piece, frame);
  }

  bool lower(Piece& piece, double upperMm) const {
    piece.upperMm = std::min(piece.upperMm, upperMm);
    return piece.upperMm <= shallowMm();
  }

  /// No boundary is in the ball about the parent's centre that reaches to the nearest.
  void inheritSide(Piece& piece, const Piece& parent) const {
    piece.side = Side::unknown;
    if (!parent.hasWall || parent.side == Side::unknown) return;
    const double room = (parent.centreMm - parent.slackMm) * (1 - 1e-12);
    if (room <= 0) return;
    if ((piece.centre_S - parent.centre_S).squaredNorm() < room * room) piece.side = parent.side;
  }

  void judge(Piece& piece) const {
    piece.side = surfaces_[piece.which].solid->contains(piece.centre_S) ? Side::inside : Side::outside;
  }

  static const Vector3d& cornerOf(const Frame& frame, int k) {
    return k < 3 ? frame.from_S[k] : frame.to_S[k - 3];
  }

  /// Everything of the piece, at every instant, is at most this, and the bend, from one triangle of
  /// the boundary.
  Bound boundByWall(const Piece& piece, const Frame& frame, std::uint32_t triangle) const {
    const TriangleCorners& wall = wallOf(piece, triangle);
    Bound bound;
    if (piece.node != kNoNode) {
      const double atFrom = distance(frame.centreFrom_S, wall);
      const double atTo = frame.span->still ? atFrom : distance(frame.centreTo_S, wall);
      bound.mm[0] = std::max(atFrom, atTo) + frame.radius;
      bound.count = 1;
      return bound;
    }
    bound.count = frame.span->still ? 3 : 6;
    for (int k = 0; k < bound.count; ++k) bound.mm[k] = distance(cornerOf(frame, k), wall);
    return bound;
  }

  /// Makes `own`, of one triangle, a bound by it and the neighbour that the piece reaches over, if that
  /// is lower: every point of the hull of the two is near to one of them.
  double addNeighbour(const Piece& piece, const Frame& frame, std::uint32_t triangle,
                      Bound& own) const {
    const auto& triangles = boundaryOf(piece).triangles();
    const int peak = own.peak();
    const WallNeighbours::Neighbour* over = nullptr;
    double overMm = own.mm[peak];
    for (const auto& neighbour : surfaces_[piece.which].solid->neighbours().of(triangle)) {
      if (neighbour.triangle == WallNeighbours::kNone) continue;
      const double mm =
          distance(cornerOf(frame, peak), triangles[neighbour.triangle]) + neighbour.hollowMm;
      if (mm < overMm) overMm = mm, over = &neighbour;
    }
    if (!over) return own.upperMm();
    Bound both = own;
    for (int k = 0; k < own.count; ++k) {
      const double mm = distance(cornerOf(frame, k), triangles[over->triangle]);
      both.mm[k] = std::min(own.mm[k], mm) + over->hollowMm;
    }
    if (both.upperMm() < own.upperMm()) own = both;
    return own.upperMm();
  }

  /// Where the bound is greatest the surface may well be that deep; and at the centre.
  /// @returns Whether another triangle of the boundary was found near to that place.
  bool lookClosely(Piece& piece, const Frame& frame, const Bound& own) {
    const PlacedSpan& span = *frame.span;
    const bool deeper = piece.centreMm - piece.slackMm > best_.depthMm;
    if (deeper && piece.side == Side::unknown) judge(piece);
    if (deeper && piece.side == Side::inside) {
      tryPlace(piece.which, span.X_SF_middle, 0.5 * (span.from + span.to), piece.centre_S,
               piece.wall, true);
    }
    const int peak = own.peak();
    const Vector3d& peak_S = cornerOf(frame, peak);
    if (peak_S == piece.peak_S || own.mm[peak] <= best_.depthMm) return false;
    piece.peak_S = peak_S;
    const bool atEnd = peak >= 3;
    const std::uint32_t wall =
        tryPlace(piece.which, atEnd ? span.X_SF_to : span.X_SF_from, atEnd ? span.to : span.from,
                 peak_S, piece.wall, false);
    if (wall == piece.wall) return false;
    piece.otherWall = wall;
    return true;
  }

  /// Whether the flat piece surely stays off the boundary, at every instant of its span. It is within
  /// the bend of the hull of its corners at both ends.
  bool isClear(const Piece& piece, const Frame& frame) {
    const BoundingTree& boundary = boundaryOf(piece);
    const double marginMm = frame.bendMm + kEqualMm;
    const auto least = [&](const Vector3d& n) {
      double mm = n.dot(frame.from_S[0]);
      for (int k = 1; k < 6; ++k) mm = std::min(mm, n.dot(cornerOf(frame, k)));
      return mm - marginMm;
    };
    const TriangleCorners middle = {0.5 * (frame.from_S[0] + frame.to_S[0]),
                                    0.5 * (frame.from_S[1] + frame.to_S[1]),
                                    0.5 * (frame.from_S[2] + frame.to_S[2])};
    // Two directions that mostly do: of the nearest point, and of the piece's own face.
    const Vector3d nearest = closestPointOnTriangle(piece.centre_S, wallOf(piece, piece.wall));
    Vector3d own = (middle[1] - middle[0]).cross(middle[2] - middle[0]).normalized();
    if (own.dot(piece.centre_S - nearest) < 0) own = -own;
    const std::array<Vector3d, 2> n = {(piece.centre_S - nearest).normalized(), own};
    const std::array<double, 2> leastMm = {least(n[0]), least(n[1])};
    int compared = 0;
    stack_.assign(1, 0);
    while (!stack_.empty()) {
      const auto& node = boundary.nodes()[stack_.back()];
      stack_.pop_back();
      const auto off = [&](int i) {
        return leastMm[i] - n[i].dot(node.centre) > reachAlong(node, n[i]);
      };
      if (off(0) || off(1)) continue;
      const Vector3d away = closestPointOnTriangle(node.centre, middle) - node.centre;
      const double mm = away.norm();
      if (mm > 0) {
        const Vector3d m = away / mm;
        if (least(m) - m.dot(node.centre) > reachAlong(node, m)) continue;
      }
      if (!node.isLeaf()) {
        stack_.push_back(node.first);
        stack_.push_back(node.first + 1);
        continue;
      }
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
        const TriangleCorners& wall = boundary.triangles()[i];
        const auto most = [&](const Vector3d& m) {
          return std::max({m.dot(wall[0]), m.dot(wall[1]), m.dot(wall[2])});
        };
        if (leastMm[0] > most(n[0]) || leastMm[1] > most(n[1])) continue;
        const Vector3d face = (wall[1] - wall[0]).cross(wall[2] - wall[0]).normalized();
        if (least(face) > most(face) || least(-face) > most(-face)) continue;
        if (++compared > kMostCompared) return false;
        const ClosestPoints closest = closestBetweenTriangles(middle, wall);
        if (closest.distanceMm <= marginMm) return false;
        const Vector3d m = (closest.onA - closest.onB) / closest.distanceMm;
        if (least(m) <= most(m)) return false;
      }
    }
    return true;
  }

  /// Halves what makes the bound higher than the centre's depth: size, or time.
  void chooseHalving(Piece& piece, const Frame& frame) const {
    const PlacedSpan& span = *frame.span;
    const TriangleCorners& wall = wallOf(piece, piece.wall);
    double bySize = frame.radius;
    if (piece.node == kNoNode) {
      piece.edge = longestEdge(piece.corners_F);
      if (piece.side != Side::outside) bySize = chooseEdge(piece, span, wall);
    }
    piece.halveTime = false;
    if (span.still || span.to - span.from < kShortestSpan) return;
    double byTime = frame.travelMm;
    if (piece.side != Side::outside) {
      const double ends =
          std::max(distance(frame.centreFrom_S, wall), distance(frame.centreTo_S, wall));
      byTime = std::min(byTime, ends + frame.bendMm - piece.centreMm);
    }
    piece.halveTime = byTime > bySize;
  }

  static std::uint8_t longestEdge(const TriangleCorners& corners) {
    std::array<double, 3> lengths;
    for (int i = 0; i < 3; ++i) lengths[i] = (corners[(i + 1) % 3] - corners[i]).squaredNorm();
    return static_cast<std::uint8_t>(std::max_element(lengths.begin(), lengths.end()) -
                                     lengths.begin());
  }

  /// The edge along which the distance from the wall bends or rises most; of equals the longest.
  /// @returns How much farther than the centre a corner is.
  double chooseEdge(Piece& piece, const PlacedSpan& span, const TriangleCorners& wall) const {
    TriangleCorners at;
    std::array<double, 3> mm;
    for (int i = 0; i < 3; ++i) {
      at[i] = span.X_SF_middle * piece.corners_F[i];
      mm[i] = distance(at[i], wall);
    }
    const auto excessOf = [&](int i) {
      const int j = (i + 1) % 3;
      return std::max(mm[i], mm[j]) - distance(0.5 * (at[i] + at[j]), wall);
    };
    double most = excessOf(piece.edge) + kEqualMm;
    for (int i = 0; i < 3; ++i) {
      const double excess = excessOf(i);
      if (excess > most) most = excess, piece.edge = static_cast<std::uint8_t>(i);
    }
    return *std::max_element(mm.begin(), mm.end()) - piece.centreMm;
  }

  const std::vector<Reaching>& surfaces_;
  PlacedSpans& spans_;
  const DeepestSearch& search_;
  double marginMm_ = 0;
  double leftMm_ = 0;
  std::vector<Piece> pool_;
  std::vector<std::uint32_t> free_;
  std::vector<Waiting> heap_;
  std::uint64_t order_ = 0;
  DeepestPlace best_;
  bool found_ = false;
  std::size_t queries_ = 0;
  std::vector<std::uint32_t> stack_;
  std::size_t pops_ = 0;
};

}  // namespace

DeepestPlace deepestPlace(const std::vector<Reaching>& surfaces, PlacedSpans& spans,
                          const std::vector<std::uint32_t>& first, const DeepestSearch& search) {
  std::vector<Reaching> able;
  for (const Reaching& surface : surfaces) {
    if (!surface.surface->empty() && surface.solid->hasInside()) able.push_back(surface);
  }
  return Search(able, spans, search).run(first);
}

}  // namespace swingroom
