#include "core/room/growth_probe.h"

#include <algorithm>

#include "core/room/room_search.h"

namespace swingroom {
namespace {

/// One group's question: is there a piece without the room that it needs? The first that is found ends it.
class ShortageGoals : public RoomGoals {
 public:
  /// @param nodeNeeds, pieceNeeds  mm; minus infinity: left out.
  ShortageGoals(const std::vector<double>& nodeNeeds, const std::vector<double>& pieceNeeds, double toleranceMm)
      : nodeNeeds_(nodeNeeds), pieceNeeds_(pieceNeeds), toleranceMm_(toleranceMm) {}

  double openMm(std::uint32_t node) const override { return found_ ? kNothingOpen : nodeNeeds_[node] + toleranceMm_; }
  double openMmOfPiece(std::uint32_t piece) const override {
    return found_ ? kNothingOpen : pieceNeeds_[piece] + toleranceMm_;
  }
  void boundNode(std::uint32_t, double, const RoomSource&) override {}
  void boundPiece(std::uint32_t piece, double upperMm, const RoomSource& source, bool) override {
    // The search does not look for what is better by less than a quarter of the tolerance.
    if (found_ || upperMm >= pieceNeeds_[piece] + 0.75 * toleranceMm_) return;
    found_ = true;
    piece_ = piece;
    roomMm_ = upperMm;
    source_ = source;
  }
  void passDown(std::uint32_t) override {}
  void proveNode(std::uint32_t, double) override {}
  void provePiece(std::uint32_t, double) override {}

  bool found() const { return found_; }
  std::uint32_t piece() const { return piece_; }
  double roomMm() const { return roomMm_; }
  const RoomSource& source() const { return source_; }

 private:
  const std::vector<double>& nodeNeeds_;
  const std::vector<double>& pieceNeeds_;
  double toleranceMm_;
  bool found_ = false;
  std::uint32_t piece_ = 0;
  double roomMm_ = 0;
  RoomSource source_;
};

}  // namespace

GrowthProbe::GrowthProbe(const RoomSubject& subject, const Vector3d& centre_P, double withinMm,
                         const GrowthSettings& settings, const WorkMonitor& monitor)
    : centre_P_(centre_P),
      threads_(settings.threads),
      monitor_(monitor),
      pieces_(piecesOf(subject.assembly, subject.part, settings.pieceMm)),
      judged_(pieces_),
      obstacles_(obstaclesFor(subject, judged_, withinMm, settings.threads, monitor)),
      kinds_(kindsOf(obstacles_.obstacles)),
      groups_(searchGroups(judged_.tree)),
      nodeFrom_(judged_.tree.nodes().size(), -1),
      pieceFrom_(judged_.places.size(), -1) {
  const BoundingTree& tree = judged_.tree;
  for (std::size_t i = 0; i < pieceFrom_.size(); ++i) {
    if (obstacles_.touched[i]) continue;
    for (const Vector3d& corner : tree.triangles()[i]) {
      pieceFrom_[i] = std::max(pieceFrom_[i], (corner - centre_P).norm());
    }
  }
  // Children come after their parents.
  for (std::size_t n = tree.nodes().size(); n-- > 0;) {
    const BoundingTree::Node& node = tree.nodes()[n];
    const auto& below = node.isLeaf() ? pieceFrom_ : nodeFrom_;
    const std::uint32_t count = node.isLeaf() ? node.count : 2;
    nodeFrom_[n] = *std::max_element(below.begin() + node.first, below.begin() + node.first + count);
  }
  if (!tree.empty()) farthestMm_ = std::max(0.0, nodeFrom_[0]);
}

GrowthStop GrowthProbe::stopOf(std::uint32_t piece, const RoomSource& source) const {
  const RoomObstacle& obstacle = obstacles_.obstacles[source.obstacle];
  const TriangleCorners& t = judged_.tree.triangles()[piece];
  return {obstacle.part, obstacle.way, source.instant, (t[0] + t[1] + t[2]) / 3,
          pieces_[judged_.places[piece]].triangle};
}

std::optional<GrowthProbe::Shortage> GrowthProbe::swallowed() const {
  if (obstacles_.swallowed.empty()) return std::nullopt;
  const SwallowedPiece& first = obstacles_.swallowed.front();
  return Shortage{-1, stopOf(first.piece, {static_cast<std::uint32_t>(first.obstacle), first.instant})};
}

std::vector<GrowthProbe::Kind> GrowthProbe::kindsOf(const std::vector<RoomObstacle>& obstacles) {
  std::vector<Kind> kinds;
  for (std::uint32_t o = 0; o < obstacles.size(); ++o) {
    const double requiredMm = obstacles[o].requiredMm;
    auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const Kind& k) { return k.requiredMm == requiredMm; });
    if (kind == kinds.end()) kind = kinds.insert(kinds.end(), Kind{requiredMm, {}, {}});
    kind->obstacles.push_back(obstacles[o]);
    kind->places.push_back(o);
  }
  return kinds;
}

std::optional<GrowthProbe::Shortage> GrowthProbe::ask(double scale, const NeededRoom& needed,
                                                      double toleranceMm) const {
  if (judged_.tree.empty()) return std::nullopt;
  const BoundingTree tree = judged_.tree.scaledAbout(centre_P_, scale);
  std::optional<Shortage> worst;
  for (const Kind& kind : kinds_) {
    const auto shortage = askOf(kind, tree, needed, toleranceMm);
    if (shortage && (!worst || shortage->roomMm < worst->roomMm)) worst = shortage;
  }
  return worst;
}

std::optional<GrowthProbe::Shortage> GrowthProbe::askOf(const Kind& kind, const BoundingTree& tree,
                                                        const NeededRoom& needed, double toleranceMm) const {
  const std::vector<RoomObstacle> obstacles = turnedWith(tree, kind.obstacles);
  const auto needs = [&](const std::vector<double>& fromMm) {
    std::vector<double> needMm;
    for (const double mm : fromMm) needMm.push_back(mm < 0 ? kNothingOpen : needed(mm, kind.requiredMm));
    return needMm;
  };
  const std::vector<double> nodeNeeds = needs(nodeFrom_), pieceNeeds = needs(pieceFrom_);
  std::vector<std::optional<Shortage>> found(groups_.size());
  parallelFor(groups_.size(), threads_, [&](std::size_t i) {
    ShortageGoals goals(nodeNeeds, pieceNeeds, toleranceMm);
    RoomSearch(tree, obstacles, goals, toleranceMm, monitor_).run(groups_[i]);
    if (!goals.found()) return;
    found[i] = Shortage{goals.roomMm(),
                        stopOf(goals.piece(), {kind.places[goals.source().obstacle], goals.source().instant})};
  });
  std::optional<Shortage> worst;
  for (const auto& shortage : found) {
    if (shortage && (!worst || shortage->roomMm < worst->roomMm)) worst = shortage;
  }
  return worst;
}

}  // namespace swingroom
