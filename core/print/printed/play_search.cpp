#include "core/print/printed/play_search.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <queue>

#include "core/print/printed/play_reach.h"
#include "core/sweep/interval_gap.h"
#include "core/sweep/separation.h"

namespace swingroom {
namespace {

using Eigen::Matrix3d;
using Node = BoundingTree::Node;

constexpr double kToleranceMm = 0.02;
constexpr std::size_t kMostPieces = 100'000;
/// Shorter stretches of time are not halved, as share of a phase.
constexpr double kShortest = 1e-5;
/// Boxes smaller than this share of what motion takes off their gap are looked at in shorter
/// stretches first.
constexpr double kTimeFirst = 0.2;

/// A stretch of one phase.
struct PlayStretch {
  PlayStretch(const PlayedPair& pair, const PlannedTrack& onTrack, const Phase& ofPhase,
              double fromPart, double toPart)
      : track(&onTrack),
        phase(&ofPhase),
        from(fromPart),
        to(toPart),
        piece{ofPhase.motion->at((fromPart + toPart) / 2),
              ofPhase.motion->isConstant() ? 0 : (toPart - fromPart) / 2, true},
        lanes(piece, onTrack.b->tree.root()),
        reach(pair, *ofPhase.motion, (fromPart + toPart) / 2),
        separation(piece, lanes, piece.middle.X_AB * onTrack.b->tree.root().centre,
                   onTrack.b->tree.root().radius, 0),
        travelMm(separation.travel().travelMm(piece.middle.X_AB * onTrack.b->tree.root().centre,
                                              onTrack.b->tree.root().radius)) {
    double turnRad = 0;
    for (const MovingAxis& axis : piece.middle.axes)
      turnRad += std::abs(axis.turnRateRad) * piece.halfWidth;
    reach.allow(separation.travel(), travelMm, turnRad);
  }

  bool canHalve() const { return piece.halfWidth > kShortest; }
  double instant() const { return phase->from + (from + to) / 2 * (phase->to - phase->from); }
  const BoundingTree& treeA() const { return track->a->tree; }
  const BoundingTree& treeB() const { return track->b->tree; }

  const PlannedTrack* track;
  const Phase* phase;
  double from, to;
  MotionPiece piece;
  LaneMotion lanes;
  PlayReach reach;
  Separation separation;
  double travelMm;
  std::size_t halves = 0;  ///< Place of the first of its two; 0: not made.
};

/// Of one surface: a node of its tree, or below a leaf a part of a triangle, in its own frame.
struct PlayPatch {
  std::uint32_t node = 0;
  bool isPart = false;
  TriangleCorners corners;
};

/// Two patches over a stretch.
struct PlayPiece {
  std::size_t stretch = 0;
  PlayPatch a, b;
  double gapMm = 0;     ///< At the middle, without play, at least.
  double lowerMm = 0;   ///< At every instant, with play.
  double radiusMm = 0;  ///< Of the larger.
  double playDoubtMm = 0, timeDoubtMm = 0;

  bool operator<(const PlayPiece& other) const { return lowerMm > other.lowerMm; }
};

ReachBall ballOf(const BoundingTree& tree, const PlayPatch& patch) {
  if (!patch.isPart) return {tree.nodes()[patch.node].centre, tree.nodes()[patch.node].radius};
  const Vector3d centre = (patch.corners[0] + patch.corners[1] + patch.corners[2]) / 3;
  double radiusMm = 0;
  for (const Vector3d& corner : patch.corners)
    radiusMm = std::max(radiusMm, (corner - centre).norm());
  return {centre, radiusMm};
}

bool isLeaf(const BoundingTree& tree, const PlayPatch& patch) {
  return !patch.isPart && tree.nodes()[patch.node].isLeaf();
}

/// The halves of a patch: children, the triangles of a leaf, or a triangle cut at its longest side.
std::vector<PlayPatch> halvesOf(const BoundingTree& tree, const PlayPatch& patch) {
  std::vector<PlayPatch> halves;
  if (patch.isPart) {
    std::size_t longest = 0;
    const auto length = [&](std::size_t e) {
      return (patch.corners[(e + 1) % 3] - patch.corners[e]).norm();
    };
    for (std::size_t e = 1; e < 3; ++e) {
      if (length(e) > length(longest)) longest = e;
    }
    const Vector3d &p = patch.corners[longest], &q = patch.corners[(longest + 1) % 3];
    const Vector3d &r = patch.corners[(longest + 2) % 3], middle = (p + q) / 2;
    return {{patch.node, true, {p, middle, r}}, {patch.node, true, {middle, q, r}}};
  }
  const Node& node = tree.nodes()[patch.node];
  if (!node.isLeaf()) return {{node.first, false, {}}, {node.first + 1, false, {}}};
  for (std::uint32_t i = 0; i < node.count; ++i)
    halves.push_back({patch.node, true, tree.triangles()[node.first + i]});
  return halves;
}

class PlayDescent {
 public:
  PlayDescent(const PlayedPair& pair, const Sequence& way, const PlayRange& range,
              const WorkMonitor& monitor)
      : pair_(pair), way_(way), range_(range), monitor_(monitor) {}

  /// None: cancelled.
  std::optional<PlayedLeast> run(const PairPlan& plan) {
    for (const PlannedTrack& track : plan.tracks) {
      if (track.role != TrackRole::outside || track.a->tree.empty() || track.b->tree.empty())
        continue;
      for (std::size_t i = 0; i < track.phases.size(); ++i) {
        if (standsAsBefore(track.phases, i)) continue;
        stretches_.push_back(std::make_unique<PlayStretch>(pair_, track, track.phases[i], 0, 1));
        add(stretches_.size() - 1, {}, {}, -std::numeric_limits<double>::infinity());
      }
    }
    while (!queue_.empty() && queue_.top().lowerMm < range_.farMm) {
      if (monitor_.cancelled()) return std::nullopt;
      const PlayPiece piece = queue_.top();
      if (isKnown(piece) || isHopeless(piece) || looked_ > kMostPieces) return found(piece);
      queue_.pop();
      open(piece);
    }
    PlayedLeast far;
    far.lowerMm = range_.farMm;
    return far;
  }

 private:
  /// The two stand still in that phase, by the same joints and just so as in an earlier one.
  static bool standsAsBefore(const std::vector<Phase>& phases, std::size_t at) {
    const RelativeMotion& motion = *phases[at].motion;
    if (!motion.isConstant()) return false;
    const auto isSame = [&](const Phase& before) {
      const auto &links = before.motion->links(), &now = motion.links();
      return before.motion->isConstant() && links.size() == now.size() &&
             std::equal(links.begin(), links.end(), now.begin(), [](const auto& a, const auto& b) {
               return a.id == b.id && a.start == b.start;
             });
    };
    return std::any_of(phases.begin(), phases.begin() + static_cast<std::ptrdiff_t>(at), isSame);
  }

  bool isKnown(const PlayPiece& piece) const {
    return piece.a.isPart && piece.b.isPart && piece.playDoubtMm + piece.timeDoubtMm < kToleranceMm;
  }

  /// However finely it is looked at, no more than what is needed will be proven of it.
  bool isHopeless(const PlayPiece& piece) const {
    return piece.a.isPart &&
           piece.lowerMm + piece.playDoubtMm + piece.timeDoubtMm < range_.neededMm;
  }

  void open(const PlayPiece& piece) {
    const PlayStretch& stretch = *stretches_[piece.stretch];
    const double spaceDoubtMm = piece.a.isPart ? piece.playDoubtMm : kTimeFirst * piece.radiusMm;
    if (stretch.canHalve() && piece.timeDoubtMm > spaceDoubtMm) return openTime(piece);
    const double a = ballOf(stretch.treeA(), piece.a).radiusMm,
                 b = ballOf(stretch.treeB(), piece.b).radiusMm;
    const bool leafA = isLeaf(stretch.treeA(), piece.a), leafB = isLeaf(stretch.treeB(), piece.b);
    // A leaf's box holds better than the ball of its triangle: both become triangles together.
    const bool openA = leafA ? leafB : leafB || a >= b / 2,
               openB = leafB ? leafA : leafA || b >= a / 2;
    for (const PlayPatch& onA :
         openA ? halvesOf(stretch.treeA(), piece.a) : std::vector<PlayPatch>{piece.a}) {
      for (const PlayPatch& onB :
           openB ? halvesOf(stretch.treeB(), piece.b) : std::vector<PlayPatch>{piece.b}) {
        add(piece.stretch, onA, onB, piece.lowerMm);
      }
    }
  }

  void openTime(const PlayPiece& piece) {
    if (stretches_[piece.stretch]->halves == 0) halve(piece.stretch);
    const std::size_t first = stretches_[piece.stretch]->halves;
    add(first, piece.a, piece.b, piece.lowerMm);
    add(first + 1, piece.a, piece.b, piece.lowerMm);
  }

  void halve(std::size_t at) {
    const PlayStretch& whole = *stretches_[at];
    const double middle = (whole.from + whole.to) / 2;
    stretches_[at]->halves = stretches_.size();
    stretches_.push_back(
        std::make_unique<PlayStretch>(pair_, *whole.track, *whole.phase, whole.from, middle));
    stretches_.push_back(
        std::make_unique<PlayStretch>(pair_, *whole.track, *whole.phase, middle, whole.to));
  }

  /// @param leastMm  What holds of the whole that it is a piece of.
  void add(std::size_t at, const PlayPatch& onA, const PlayPatch& onB, double leastMm) {
    ++looked_;
    const PlayStretch& stretch = *stretches_[at];
    const ReachBall a = ballOf(stretch.treeA(), onA);
    ReachBall b = ballOf(stretch.treeB(), onB);
    b.centre_A = stretch.piece.middle.X_AB * b.centre_A;
    PlayPiece piece{at, onA, onB, 0, 0, std::max(a.radiusMm, b.radiusMm), 0, 0};
    const bool areParts = onA.isPart && onB.isPart;
    const double leftMm =
        areParts ? partsLeft(stretch, piece, a, b) : boxesLeft(stretch, piece, a, b);
    piece.lowerMm = std::max(leastMm, leftMm);
    piece.playDoubtMm = stretch.reach.doubtMm(2 * std::min(a.radiusMm, b.radiusMm));
    piece.timeDoubtMm += stretch.reach.doubtMm(2 * stretch.travelMm);
    if (piece.lowerMm < range_.farMm) queue_.push(piece);
  }

  /// Of triangles: what is left over the stretch, with play, along the way from one to the other.
  double partsLeft(const PlayStretch& stretch, PlayPiece& piece, const ReachBall& a,
                   const ReachBall& b) const {
    TriangleCorners onB = piece.b.corners;
    for (Vector3d& corner : onB) corner = stretch.piece.middle.X_AB * corner;
    const ClosestPoints closest = closestBetweenTriangles(piece.a.corners, onB);
    piece.gapMm = closest.distanceMm;
    if (closest.distanceMm <= 0) return -stretch.reach.takesMm(a, b);
    const Vector3d n_A = (closest.onB - closest.onA) / closest.distanceMm;
    const double apartMm = stretch.separation.along(n_A, piece.a.corners, onB, 0);
    piece.timeDoubtMm = piece.gapMm - apartMm;
    double leftMm =
        std::max(apartMm - stretch.reach.takesAlongMm(a, b, n_A), -stretch.reach.takesMm(a, b));
    // Along a face's normal the two may be less apart, and play take off far less.
    for (const TriangleCorners& face : {piece.a.corners, onB}) {
      const Vector3d normal = (face[1] - face[0]).cross(face[2] - face[0]).normalized();
      const double alongMm = stretch.separation.along(normal, piece.a.corners, onB, 0);
      if (alongMm > 0)
        leftMm = std::max(leftMm, alongMm - stretch.reach.takesAlongMm(a, b, normal));
    }
    return leftMm;
  }

  /// The same of boxes.
  double boxesLeft(const PlayStretch& stretch, PlayPiece& piece, const ReachBall& a,
                   const ReachBall& b) const {
    std::array<const Node*, kLanes> nodesA, nodesB;
    nodesA.fill(&stretch.treeA().nodes()[piece.a.node]);
    nodesB.fill(&stretch.treeB().nodes()[piece.b.node]);
    LaneBounds bounds;
    compareBoxes(stretch.lanes, nodesA, nodesB, {std::numeric_limits<double>::infinity(), 0},
                 bounds);
    piece.gapMm = bounds.gapMm[0];
    piece.timeDoubtMm = bounds.gapMm[0] - bounds.lowerMm[0];
    double leftMm = bounds.lowerMm[0] - stretch.reach.takesMm(a, b);
    const Matrix3d axesB_A = stretch.piece.middle.X_AB.linear() * nodesB[0]->axes;
    const Vector3d flatA = nodesA[0]->axes.col(thinnest(*nodesA[0])),
                   flatB = axesB_A.col(thinnest(*nodesB[0]));
    const Vector3d between = b.centre_A - a.centre_A;
    for (const Vector3d& n_A : {Vector3d(between.normalized()), flatA, flatB}) {
      const double apartMm = std::abs(n_A.dot(between)) -
                             nodesA[0]->half.dot((nodesA[0]->axes.transpose() * n_A).cwiseAbs()) -
                             nodesB[0]->half.dot((axesB_A.transpose() * n_A).cwiseAbs()) -
                             stretch.travelMm;
      if (apartMm > leftMm)
        leftMm = std::max(leftMm, apartMm - stretch.reach.takesAlongMm(a, b, n_A));
    }
    return leftMm;
  }

  static Eigen::Index thinnest(const Node& box) {
    Eigen::Index axis = 0;
    box.half.minCoeff(&axis);
    return axis;
  }

  PlayedLeast found(const PlayPiece& piece) const {
    const PlayStretch& stretch = *stretches_[piece.stretch];
    PlayedLeast least;
    least.lowerMm = piece.lowerMm - 1e-7;  // rounding
    least.instant = stretch.instant();
    const Pose X_WA = posesOf(
        *pair_.assembly, configurationAt(*pair_.assembly, way_, *least.instant))[pair_.a.index];
    const PlayPatch onA = anyPart(stretch.treeA(), piece.a),
                    onB = anyPart(stretch.treeB(), piece.b);
    TriangleCorners placed = onB.corners;
    for (Vector3d& corner : placed) corner = stretch.piece.middle.X_AB * corner;
    const ClosestPoints closest = closestBetweenTriangles(onA.corners, placed);
    least.onA_W = X_WA * closest.onA;
    least.onB_W = X_WA * closest.onB;
    return least;
  }

  static PlayPatch anyPart(const BoundingTree& tree, PlayPatch patch) {
    while (!patch.isPart) patch = halvesOf(tree, patch).front();
    return patch;
  }

  const PlayedPair& pair_;
  const Sequence& way_;
  PlayRange range_;
  const WorkMonitor& monitor_;
  std::vector<std::unique_ptr<PlayStretch>> stretches_;
  std::priority_queue<PlayPiece> queue_;
  std::size_t looked_ = 0;
};

}  // namespace

std::optional<PlayedLeast> playedLeast(const PlayedPair& pair, const Sequence& way,
                                       const PlayRange& range, const WorkMonitor& monitor) {
  const PairPlan plan =
      planPair(*pair.assembly, way, *pair.geometry, pair.a, pair.b, pair.assembly->resolutionMm());
  const auto isFree = [](const Phase& phase) { return phase.anyOrder; };
  if (std::any_of(plan.phases.begin(), plan.phases.end(), isFree)) return std::nullopt;
  return PlayDescent(pair, way, range, monitor).run(plan);
}

}  // namespace swingroom
