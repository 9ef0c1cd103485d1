#include "core/proximity/deepest_place.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/proximity/depth_piece.h"
#include "core/proximity/swept_piece.h"
#include "core/proximity/wall_distance.h"
#include "core/tree/point_query.h"

namespace swingroom {
namespace {

/// Share of what a bound is loose by anyway that nearest points may be off.
constexpr double kSlackOfReach = 0.1;
constexpr std::size_t kLooksOfQuery = 64;  ///< Nodes.
/// A bracket wider than this share of the depth is given up sooner.
constexpr double kNearShare = 0.05;
constexpr int kDiveHalvings = 3;  ///< 8 spans of each first one are dived into for a good start.
/// Shortest span, in the sequence: what is left then is left.
constexpr double kShortestSpan = 1e-9;

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
      open(piece);
    }
    best_.upperMm = std::max(best_.depthMm, leftMm_);
    if (!heap_.empty()) best_.upperMm = std::max(best_.upperMm, heap_.front().upperMm);
    if (!found_) best_.depthMm = 0;
    preferTheFirst();
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
    if (search_.monitor && search_.monitor->cancelled()) return true;
    if (search_.enoughMm > 0 && found_ && best_.depthMm >= search_.enoughMm) return true;
    const double openMm = heap_.front().upperMm - best_.depthMm;
    if (openMm <= marginMm_) return true;
    if (openMm <= search_.accuracyMm) return queries_ >= search_.fineQueries;
    if (openMm <= search_.shareOfDepth * best_.depthMm) return queries_ >= search_.shareQueries;
    const bool isNear = openMm <= kNearShare * best_.depthMm;
    return queries_ >= (isNear ? search_.mostQueries : search_.mostQueries * 2 / 5);
  }

  double shallowMm() const { return best_.depthMm + marginMm_; }
  const Solid& solidOf(const Piece& piece) const { return *surfaces_[piece.which].solid; }
  const BoundingTree& boundaryOf(const Piece& piece) const {
    return surfaces_[piece.which].solid->boundary();
  }
  const TriangleCorners& wallOf(const Piece& piece, std::uint32_t triangle) const {
    return boundaryOf(piece).triangles()[triangle];
  }
  const PlacedSpan& spanOf(const Piece& piece) const {
    return spans_.at(piece.span, surfaces_[piece.which].side);
  }

  // ---- a good start ----

  /// Goes down to one leaf where the surface seems deepest in the middle of the span, and looks
  /// there.
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
    const auto nearest =
        nearestTo(*reaching.solid, p, {kFar, 0, kSlackOfReach * node.radius, hint});
    hint = nearest->triangle;
    const bool inside = reaching.solid->contains(p);
    return (inside ? nearest->distanceMm : -nearest->distanceMm) + node.radius;
  }

  /// Looks at a place on a surface, and keeps it if it is deeper than all so far.
  /// @param isInside  Known to be.
  /// @returns A triangle of the boundary that is near, nearer than the deepest so far if there is
  /// one.
  std::uint32_t tryPlace(std::size_t which, const Pose& X_SF, double instant, const Vector3d& p_S,
                         std::optional<std::uint32_t> hint, bool isInside) {
    const Solid& solid = *surfaces_[which].solid;
    const double enoughMm = best_.depthMm - (instant < best_.instant ? search_.plateauMm : 0);
    const auto nearest = nearestTo(solid, p_S, {kFar, std::max(enoughMm, 0.0), 0, hint});
    if (nearest->distanceMm > std::max(enoughMm, search_.atLeastMm) &&
        (isInside || solid.contains(p_S))) {
      DeepestPlace place;
      place.depthMm = nearest->distanceMm;
      place.side = surfaces_[which].side;
      place.instant = instant;
      place.X_SF = X_SF;
      place.point_S = p_S;
      place.nearest_S = nearest->point;
      keep(place);
    }
    return nearest->triangle;
  }

  /// A search that goes through much of the boundary counts for more than one.
  std::optional<SurfacePoint> nearestTo(const Solid& solid, const Vector3d& p_S,
                                        const PointHints& hints) {
    std::size_t looked = 0;
    const auto nearest = closestPoint(solid.boundary(), p_S, hints, &looked);
    queries_ += 1 + looked / kLooksOfQuery;
    return nearest;
  }

  void keep(const DeepestPlace& place) {
    found_ = true;
    if (place.depthMm > best_.depthMm) best_ = place;
    if (search_.plateauMm == 0) return;
    // Those that could still be the first of a plateau: each earlier than all that are deeper.
    const auto isBeaten = [&](const DeepestPlace& other, const DeepestPlace& by) {
      return other.depthMm <= by.depthMm && other.instant >= by.instant;
    };
    for (const DeepestPlace& other : early_) {
      if (isBeaten(place, other)) return;
    }
    std::erase_if(early_, [&](const DeepestPlace& other) {
      return isBeaten(other, place) || other.depthMm < best_.depthMm - search_.plateauMm;
    });
    early_.push_back(place);
  }

  /// Of the places that are nearly as deep as the deepest the one that comes first.
  void preferTheFirst() {
    DeepestPlace first = best_;
    for (const DeepestPlace& place : early_) {
      if (place.depthMm >= best_.depthMm - search_.plateauMm && place.instant < first.instant) {
        first = place;
      }
    }
    first.upperMm = best_.upperMm;
    best_ = first;
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

  void assess(Piece& piece, const Piece& parent) {
    const Reaching& reaching = surfaces_[piece.which];
    PieceFrame frame;
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
      frame.hull = span.still ? 3 : 6;
      for (int i = 0; i < 3; ++i) {
        frame.middle_S[i] = frame.hull_S[i] = span.X_SF_from * piece.corners_F[i];
        if (span.still) continue;
        frame.hull_S[i + 3] = span.X_SF_to * piece.corners_F[i];
        frame.middle_S[i] = 0.5 * (frame.hull_S[i] + frame.hull_S[i + 3]);
      }
    }
    piece.upperMm = parent.upperMm;
    inheritSide(piece, parent);

    Bound own, other;
    if (parent.hasWall) {
      own = boundByWall(solidOf(piece), piece, frame, parent.wall);
      if (lower(piece, own.upperMm() + frame.bendMm)) return;
      if (flat && parent.otherWall != kNoWall) {
        other = boundByWall(solidOf(piece), piece, frame, parent.otherWall);
        if (lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      }
    }
    PointHints hints;
    const double reachMm = frame.radius + frame.travelMm;
    hints.enoughMm = shallowMm() - reachMm;
    hints.slackMm = kSlackOfReach * std::min(reachMm, std::max(0.0, piece.upperMm - shallowMm()));
    if (parent.hasWall) hints.triangle = parent.wall;
    const auto nearest = nearestTo(*reaching.solid, piece.centre_S, hints);
    piece.centreMm = nearest->distanceMm;
    piece.slackMm = hints.slackMm;
    const bool newWall = !parent.hasWall || nearest->triangle != parent.wall;
    piece.hasWall = true;
    piece.wall = nearest->triangle;
    if (lower(piece, piece.centreMm + reachMm)) return;
    if (newWall) {
      own = boundByWall(solidOf(piece), piece, frame, piece.wall);
      if (lower(piece, own.upperMm() + frame.bendMm)) return;
    }
    if (flat) {
      if (newWall && other.count > 0 && lower(piece, upperOfBoth(own, other) + frame.bendMm))
        return;
      if (lower(piece, addNeighbour(solidOf(piece), frame, piece.wall, own) + frame.bendMm)) return;
      if (other.count > 0 && lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      if (lookClosely(piece, frame, own)) {
        other = boundByWall(solidOf(piece), piece, frame, piece.otherWall);
        if (lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      }
      if (other.count > 0) {
        addNeighbour(solidOf(piece), frame, piece.otherWall, other);
        if (lower(piece, upperOfBoth(own, other) + frame.bendMm)) return;
      }
    }
    const double outsideMm = reachMm - (piece.centreMm - piece.slackMm);
    if (piece.side == Side::unknown && outsideMm <= shallowMm()) judge(piece);
    if (piece.side == Side::outside && lower(piece, outsideMm)) return;
    if (piece.side != Side::inside && !piece.isClear && separate(piece, frame)) {
      boundRest(piece, frame);
      if (piece.upperMm <= shallowMm()) return;
    }
    if (piece.isClear && piece.side == Side::outside) {
      piece.upperMm = 0;
      return;
    }
    chooseHalving(piece, frame);
  }

  bool lower(Piece& piece, double upperMm) const {
    piece.upperMm = std::min(piece.upperMm, upperMm);
    return piece.upperMm <= shallowMm();
  }

  /// No boundary is in the ball about the parent's centre that reaches to the nearest.
  void inheritSide(Piece& piece, const Piece& parent) const {
    if (parent.isClear) return;
    piece.side = Side::unknown;
    if (!parent.hasWall || parent.side == Side::unknown) return;
    const double room = (parent.centreMm - parent.slackMm) * (1 - 1e-12);
    if (room <= 0) return;
    if ((piece.centre_S - parent.centre_S).squaredNorm() < room * room) piece.side = parent.side;
  }

  void judge(Piece& piece) const {
    piece.side =
        surfaces_[piece.which].solid->contains(piece.centre_S) ? Side::inside : Side::outside;
  }

  /// Where the bound is greatest the surface may well be that deep; and at the centre.
  /// @returns Whether another triangle of the boundary was found near to that place.
  bool lookClosely(Piece& piece, const PieceFrame& frame, const Bound& own) {
    const PlacedSpan& span = *frame.span;
    const bool deeper = piece.centreMm - piece.slackMm > best_.depthMm;
    if (deeper && piece.side == Side::unknown) judge(piece);
    if (deeper && piece.side == Side::inside) {
      tryPlace(piece.which, span.X_SF_middle, 0.5 * (span.from + span.to), piece.centre_S,
               piece.wall, true);
    }
    const int peak = own.peak();
    const Vector3d& peak_S = frame.hull_S[peak];
    if (peak_S == piece.peak_S || own.mm[peak] <= best_.depthMm) return false;
    piece.peak_S = peak_S;
    const bool atEnd = peak >= 3;
    const std::uint32_t wall = tryPlace(piece.which, atEnd ? span.X_SF_to : span.X_SF_from,
                                        atEnd ? span.to : span.from, peak_S, piece.wall, false);
    if (wall == piece.wall) return false;
    piece.otherWall = wall;
    return true;
  }

  /// Looks whether the piece surely stays off the boundary, at every instant of its span: then it
  /// is all on one side. Of a flat piece that may cross it, what surely is outside is cut off.
  /// @returns Whether something was cut off.
  bool separate(Piece& piece, PieceFrame& frame) {
    const bool flat = piece.node == kNoNode;
    const SweptPiece swept(frame, flat ? nullptr : &surfaces_[piece.which].surface->nodes()[piece.node]);
    const TriangleCorners& wall = wallOf(piece, piece.wall);
    const Vector3d up = (wall[1] - wall[0]).cross(wall[2] - wall[0]).normalized();
    double topMm = -kFar;
    int top = 0;
    std::array<double, kMostHull> heights;
    for (int k = 0; k < frame.hull; ++k) {
      heights[k] = up.dot(frame.hull_S[k]);
      if (heights[k] > topMm) topMm = heights[k], top = k;
    }
    const double highMm = meetsUpTo(boundaryOf(piece), wall, swept, {piece.centre_S, up}, topMm - 2 * (frame.bendMm + kEqualMm));
    if (highMm == kFar) return false;
    if (highMm == -kFar) {
      piece.isClear = true;
      if (piece.side == Side::unknown) judge(piece);
      return false;
    }
    // Above that it is all on the side of its top.
    ++queries_;
    if (surfaces_[piece.which].solid->contains(frame.hull_S[top])) return false;
    cutAbove(frame, heights, highMm + frame.bendMm + kEqualMm);
    return true;
  }

  /// Bounds what is left of a flat piece's hull.
  void boundRest(Piece& piece, const PieceFrame& frame) const {
    if (frame.hull == 0) {
      piece.upperMm = 0;
      return;
    }
    Bound own = boundByWall(solidOf(piece), piece, frame, piece.wall);
    if (lower(piece, own.upperMm() + frame.bendMm)) return;
    if (lower(piece, addNeighbour(solidOf(piece), frame, piece.wall, own) + frame.bendMm)) return;
    if (piece.otherWall == kNoWall) return;
    Bound other = boundByWall(solidOf(piece), piece, frame, piece.otherWall);
    lower(piece, upperOfBoth(own, other) + frame.bendMm);
  }

  /// Halves what makes the bound higher than the centre's depth: size, or time.
  void chooseHalving(Piece& piece, const PieceFrame& frame) const {
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
          std::max(distanceTo(wall, frame.centreFrom_S), distanceTo(wall, frame.centreTo_S));
      byTime = std::min(byTime, ends + frame.bendMm - piece.centreMm);
    }
    piece.halveTime = byTime > bySize;
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
  std::vector<DeepestPlace> early_;
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
