#include "core/proximity/deepest_place.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/proximity/wall_distance.h"
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
constexpr std::size_t kLooksOfQuery = 64;  ///< Nodes.
/// A bracket wider than this share of the depth is given up sooner.
constexpr double kNearShare = 0.05;
constexpr int kMostHull = 15;     ///< Six corners, and nine where a plane cuts between them.
constexpr int kMostLooked = 200;  ///< Nodes of the boundary, likewise.
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
  Side side = Side::unknown;          ///< Of the centre, in the middle of the span.
  std::uint32_t otherWall = kNoWall;  ///< Another triangle that is near to some corner of it.
  bool hasWall = false;
  bool isClear = false;  ///< All of it is off the boundary, over all its span: it has one side.
  bool halveTime = false;
  std::uint8_t edge = 0;  ///< Of a flat piece: the one to halve.
  /// The centre's distance from the boundary, in the middle; the true one is up to `slackMm` less.
  double centreMm = 0, slackMm = 0;
  Vector3d centre_S = Vector3d::Zero();
  Vector3d peak_S = Vector3d::Constant(kFar);  ///< The place that was last looked at closely.
  TriangleCorners corners_F{Vector3d::Zero(), Vector3d::Zero(), Vector3d::Zero()};
};

/// A convex bound of the distance from the boundary, at a flat piece's corners at both ends of a
/// span: its greatest value bounds all of the piece. Of a node: of the whole, in [0].
struct Bound {
  std::array<double, kMostHull> mm;
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

  /// What the bounds of one piece are made from.
  struct Frame {
    const PlacedSpan* span = nullptr;
    double radius = 0, travelMm = 0, bendMm = 0;
    Vector3d centreFrom_S, centreTo_S;
    /// A flat piece is in the hull of these, and the bend: its corners at both ends. What is known
    /// to be outside is cut off.
    std::array<Vector3d, kMostHull> hull_S;
    int hull = 0;
    TriangleCorners middle_S;  ///< A flat piece's, between its ends.
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
      own = boundByWall(piece, frame, parent.wall);
      if (lower(piece, own.upperMm() + frame.bendMm)) return;
      if (flat && parent.otherWall != kNoWall) {
        other = boundByWall(piece, frame, parent.otherWall);
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
      own = boundByWall(piece, frame, piece.wall);
      if (lower(piece, own.upperMm() + frame.bendMm)) return;
    }
    if (flat) {
      if (newWall && other.count > 0 && lower(piece, upperOfBoth(own, other) + frame.bendMm))
        return;
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
    bound.count = frame.hull;
    distancesToTriangle(frame.hull_S.data(), frame.hull, wall, bound.mm.data());
    return bound;
  }

  /// Makes `own`, of one triangle, a bound by it and the neighbour that the piece reaches over, if
  /// that is lower: every point of the hull of the two is near to one of them.
  double addNeighbour(const Piece& piece, const Frame& frame, std::uint32_t triangle,
                      Bound& own) const {
    const auto& triangles = boundaryOf(piece).triangles();
    const int peak = own.peak();
    const auto& neighbours = surfaces_[piece.which].solid->neighbours().of(triangle);
    const TriangleCorners* over = nullptr;
    double overMm = own.mm[peak], hollowMm = 0;
    for (std::size_t corner = 0; corner < 3; ++corner) {
      const auto& [number, apex] = neighbours[corner];
      if (number == WallNeighbours::kNone) continue;
      const TriangleCorners& neighbour = triangles[number];
      const double mm = distance(frame.hull_S[peak], neighbour);
      if (mm >= overMm) continue;
      const double hollow = WallNeighbours::hollowMm(triangles[triangle], corner, neighbour, apex);
      if (mm + hollow < overMm) overMm = mm + hollow, hollowMm = hollow, over = &neighbour;
    }
    if (!over) return own.upperMm();
    Bound both = own;
    distancesToTriangle(frame.hull_S.data(), frame.hull, *over, both.mm.data());
    for (int k = 0; k < own.count; ++k) both.mm[k] = std::min(own.mm[k], both.mm[k]) + hollowMm;
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

  /// Where a piece is, at both ends of its span: within the bend of the hull of these, always.
  class Swept {
   public:
    Swept(const Frame& frame, const BoundingTree::Node* node) : frame_(frame) {
      slackMm_ = frame.bendMm + kEqualMm;
      if (!node) {
        const TriangleCorners& at = frame.middle_S;
        thin_ = (at[1] - at[0]).cross(at[2] - at[0]).normalized();
        return;
      }
      boxed_ = true;
      for (int i = 0; i < 3; ++i) {
        const Vector3d arm = node->half[i] * node->axes.col(i);
        arms_[0].col(i) = frame.span->X_SF_from.linear() * arm;
        arms_[1].col(i) = frame.span->X_SF_to.linear() * arm;
      }
      int thinnest;
      node->half.minCoeff(&thinnest);
      thin_ = frame.span->X_SF_middle.linear() * node->axes.col(thinnest);
    }

    /// Across it.
    const Vector3d& thin() const { return thin_; }

    /// No point of it is less far along `n`, unit.
    double least(const Vector3d& n) const {
      if (!boxed_) {
        double mm = n.dot(frame_.hull_S[0]);
        for (int k = 1; k < frame_.hull; ++k) mm = std::min(mm, n.dot(frame_.hull_S[k]));
        return mm - slackMm_;
      }
      const double atFrom =
          n.dot(frame_.centreFrom_S) - (arms_[0].transpose() * n).cwiseAbs().sum();
      const double atTo = n.dot(frame_.centreTo_S) - (arms_[1].transpose() * n).cwiseAbs().sum();
      return std::min(atFrom, atTo) - slackMm_;
    }

    /// Some point well within it, towards `p`.
    Vector3d towards(const Vector3d& p) const {
      if (!boxed_) return closestPointOnTriangle(p, frame_.middle_S);
      return 0.5 * (frame_.centreFrom_S + frame_.centreTo_S);
    }

   private:
    const Frame& frame_;
    double slackMm_ = 0;
    bool boxed_ = false;
    Vector3d thin_;
    std::array<Eigen::Matrix3d, 2> arms_;
  };

  /// How high along `up` the boundary gets where it may meet the piece, at any instant of its span.
  /// -kFar: it stays off. kFar: to `topMm` or more, or it is too much to look at.
  double meetsUpTo(const Piece& piece, const Swept& swept, const Vector3d& up, double topMm) {
    const BoundingTree& boundary = boundaryOf(piece);
    // Two directions that mostly do: of the nearest point, and across the piece.
    const Vector3d nearest = closestPointOnTriangle(piece.centre_S, wallOf(piece, piece.wall));
    const Vector3d off_S = piece.centre_S - nearest;
    const std::array<Vector3d, 2> n = {off_S.normalized(),
                                       swept.thin().dot(off_S) < 0 ? -swept.thin() : swept.thin()};
    const std::array<double, 2> leastMm = {swept.least(n[0]), swept.least(n[1])};
    const auto isOff = [&](const TriangleCorners& wall) {
      const auto most = [&](const Vector3d& m) {
        return std::max({m.dot(wall[0]), m.dot(wall[1]), m.dot(wall[2])});
      };
      if (leastMm[0] > most(n[0]) || leastMm[1] > most(n[1])) return true;
      const Vector3d face = (wall[1] - wall[0]).cross(wall[2] - wall[0]).normalized();
      const double faceMm = face.dot(wall[0]);
      if (swept.least(face) > faceMm + kEqualMm) return true;
      if (swept.least(-face) > kEqualMm - faceMm) return true;
      const Vector3d near = swept.towards(closestPointOnTriangle(piece.centre_S, wall));
      const Vector3d m = (near - closestPointOnTriangle(near, wall)).normalized();
      return swept.least(m) > most(m);
    };
    double highMm = -kFar;
    int met = 0;
    const auto look = [&](const TriangleCorners& wall) {
      const double mm = std::max({up.dot(wall[0]), up.dot(wall[1]), up.dot(wall[2])});
      if (mm <= highMm || isOff(wall)) return;
      highMm = mm < topMm && ++met <= kMostCompared ? mm : kFar;
    };
    look(wallOf(piece, piece.wall));
    int looked = 0;
    stack_.assign(1, 0);
    while (!stack_.empty() && highMm < kFar) {
      const auto& node = boundary.nodes()[stack_.back()];
      stack_.pop_back();
      if (++looked > kMostLooked) return kFar;
      const auto off = [&](int i) {
        return leastMm[i] - n[i].dot(node.centre) > reachAlong(node, n[i]);
      };
      if (off(0) || off(1)) continue;
      if (highMm > up.dot(node.centre) + reachAlong(node, up)) continue;
      const Vector3d away = swept.towards(node.centre) - node.centre;
      const double mm = away.norm();
      if (mm > 0) {
        const Vector3d m = away / mm;
        if (swept.least(m) - m.dot(node.centre) > reachAlong(node, m)) continue;
      }
      if (!node.isLeaf()) {
        stack_.push_back(node.first);
        stack_.push_back(node.first + 1);
        continue;
      }
      for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
        look(boundary.triangles()[i]);
      }
    }
    return highMm;
  }

  /// Looks whether the piece surely stays off the boundary, at every instant of its span: then it
  /// is all on one side. Of a flat piece that may cross it, what surely is outside is cut off.
  /// @returns Whether something was cut off.
  bool separate(Piece& piece, Frame& frame) {
    const bool flat = piece.node == kNoNode;
    const Swept swept(frame, flat ? nullptr : &surfaces_[piece.which].surface->nodes()[piece.node]);
    const TriangleCorners& wall = wallOf(piece, piece.wall);
    const Vector3d up = (wall[1] - wall[0]).cross(wall[2] - wall[0]).normalized();
    double topMm = -kFar;
    int top = 0;
    std::array<double, kMostHull> heights;
    for (int k = 0; k < frame.hull; ++k) {
      heights[k] = up.dot(frame.hull_S[k]);
      if (heights[k] > topMm) topMm = heights[k], top = k;
    }
    const double highMm = meetsUpTo(piece, swept, up, topMm - 2 * (frame.bendMm + kEqualMm));
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

  /// Cuts what is higher than `highMm` off the hull: the points below and where lines to those
  /// above cross.
  static void cutAbove(Frame& frame, const std::array<double, kMostHull>& heights, double highMm) {
    const std::array<Vector3d, kMostHull> all = frame.hull_S;
    const int count = frame.hull;
    frame.hull = 0;
    for (int low = 0; low < count; ++low) {
      if (heights[low] > highMm) continue;
      frame.hull_S[frame.hull++] = all[low];
      for (int high = 0; high < count; ++high) {
        if (heights[high] <= highMm) continue;
        const double share = (highMm - heights[low]) / (heights[high] - heights[low]);
        frame.hull_S[frame.hull++] = all[low] + share * (all[high] - all[low]);
      }
    }
  }

  /// Bounds what is left of a flat piece's hull.
  void boundRest(Piece& piece, const Frame& frame) const {
    if (frame.hull == 0) {
      piece.upperMm = 0;
      return;
    }
    Bound own = boundByWall(piece, frame, piece.wall);
    if (lower(piece, own.upperMm() + frame.bendMm)) return;
    if (lower(piece, addNeighbour(piece, frame, piece.wall, own) + frame.bendMm)) return;
    if (piece.otherWall == kNoWall) return;
    Bound other = boundByWall(piece, frame, piece.otherWall);
    lower(piece, upperOfBoth(own, other) + frame.bendMm);
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
