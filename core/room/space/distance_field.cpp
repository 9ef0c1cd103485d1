#include "core/room/space/distance_field.h"

#include <algorithm>
#include <limits>
#include <span>

#include "core/room/space/segment_distance.h"

namespace swingroom {
namespace {

constexpr double kBendEnoughMm = 3e-4;
constexpr double kRoundingMm = 1e-9;

/// Nodes under `from` that are no larger than the ball, and near the segment.
void nearNodes(const BoundingTree& tree, std::uint32_t from, const Vector3d& a, const Vector3d& b, double withinMm,
               double largest, std::vector<std::uint32_t>& nodes, double& leastMm) {
  const auto& node = tree.nodes()[from];
  const double apart = segmentToBox(node, a, b);
  if (apart >= withinMm) return;
  if (!node.isLeaf() && node.radius > largest) {
    nearNodes(tree, node.first, a, b, withinMm, largest, nodes, leastMm);
    nearNodes(tree, node.first + 1, a, b, withinMm, largest, nodes, leastMm);
    return;
  }
  nodes.push_back(from);
  leastMm = std::min(leastMm, apart);
}

template <typename Visit>
void forTriangles(const BoundingTree& tree, std::uint32_t from, const Visit& visit) {
  const auto& node = tree.nodes()[from];
  if (node.isLeaf()) {
    for (std::uint32_t t = node.first; t < node.first + node.count; ++t) visit(t);
    return;
  }
  forTriangles(tree, node.first, visit);
  forTriangles(tree, node.first + 1, visit);
}

float roundedDown(double mm) {
  const auto near = static_cast<float>(mm);
  return near <= mm ? near : std::nextafter(near, -std::numeric_limits<float>::infinity());
}

template <typename Entries>
void sortByCentre(Entries& entries) {
  std::stable_sort(entries.begin(), entries.end(),
                   [](const auto& x, const auto& y) { return x.centreMm < y.centreMm; });
}

}  // namespace

DistanceField::Line DistanceField::lineOf(const PathPiece& piece, const Vector3d& p) const {
  const RegionPath& path = pathOf(piece);
  const Vector3d a = path.X_SR(piece.level, piece.index) * p;
  return {a, path.isConstant() ? a : Vector3d(path.X_SR(piece.level, piece.index + 1) * p)};
}

bool DistanceField::isFine(const PathPiece& piece) const {
  return piece.bendMm <= kBendEnoughMm || piece.level == pathOf(piece).levels();
}

NearPaths DistanceField::everything(const Vector3d& centre, double radius, double withinMm) const {
  NearPaths all;
  all.nodes_ = {0};
  for (std::uint32_t t = 0; t < targets_->size(); ++t) {
    if ((*targets_)[t].surface->tree.empty()) continue;
    for (std::uint32_t path = 0; path < (*targets_)[t].paths.size(); ++path) {
      all.entries_.push_back({{t, path, 0, 0, 0}, 0, 1, 0});
    }
  }
  return narrowed(all, centre, radius, withinMm);
}

NearPaths DistanceField::narrowed(const NearPaths& near, const Vector3d& centre, double radius,
                                  double withinMm) const {
  NearPaths to;
  to.centre_ = centre;
  to.radius_ = radius;
  for (const NearPaths::Entry& entry : near.entries_) {
    PathPiece piece = entry.piece;
    piece.bendMm = pathOf(piece).bendMm(centre, radius) / static_cast<double>(1ull << (2 * piece.level));
    narrowEntry(near, entry, piece, withinMm, to);
  }
  sortByCentre(to.entries_);
  return to;
}

void DistanceField::narrowEntry(const NearPaths& from, const NearPaths::Entry& entry, const PathPiece& piece,
                                double withinMm, NearPaths& to) const {
  const SweptTarget& target = targetOf(piece);
  const auto [a, b] = lineOf(piece, to.centre_);
  NearPaths::Entry here{piece, static_cast<std::uint32_t>(to.nodes_.size()), 0, 0};
  const double reachMm = lessMm(piece) + withinMm + to.radius_;
  double leastMm = reachMm;
  for (std::uint32_t n = 0; n < entry.nodeCount; ++n) {
    nearNodes(target.surface->tree, from.nodes_[entry.firstNode + n], a, b, reachMm, to.radius_, to.nodes_, leastMm);
  }
  here.nodeCount = static_cast<std::uint32_t>(to.nodes_.size()) - here.firstNode;
  if (here.nodeCount == 0) return;
  const bool coarse = (b - a).norm() > to.radius_ || piece.bendMm > 0.05 * to.radius_;
  if (coarse && piece.level < pathOf(piece).levels()) {
    to.nodes_.resize(here.firstNode);
    for (std::uint32_t half = 0; half < 2; ++half) narrowEntry(from, entry, piece.half(half), withinMm, to);
    return;
  }
  here.centreMm = leastMm - lessMm(piece);
  to.entries_.push_back(here);
}

NearTriangles DistanceField::closeUp(const NearPaths& near, const Vector3d& centre, double radius,
                                     double withinMm) const {
  NearTriangles to;
  to.centre_ = centre;
  to.radius_ = radius;
  for (const NearPaths::Entry& entry : near.entries_) {
    const SweptTarget& target = targetOf(entry.piece);
    const auto [a, b] = lineOf(entry.piece, centre);
    const double less = lessMm(entry.piece);
    const double reachMm = less + withinMm + radius;
    const auto piece = static_cast<std::uint32_t>(to.pieces_.size());
    const std::size_t before = to.entries_.size();
    for (std::uint32_t n = 0; n < entry.nodeCount; ++n) {
      forTriangles(target.surface->tree, near.nodes_[entry.firstNode + n], [&](std::uint32_t t) {
        if ((*target.bounds)[t].isFarther(a, b, reachMm)) return;
        const double apart = segmentToTriangle(a, b, target.surface->tree.triangles()[t]);
        if (apart < reachMm) to.entries_.push_back({roundedDown(apart - less), piece, t});
      });
    }
    if (to.entries_.size() > before) to.pieces_.push_back(entry.piece);
  }
  sortByCentre(to.entries_);
  return to;
}

NearTriangles DistanceField::narrowed(const NearTriangles& near, const Vector3d& centre, double radius,
                                      double withinMm) const {
  NearTriangles to;
  to.centre_ = centre;
  to.radius_ = radius;
  const double off = (centre - near.centre_).norm();
  constexpr std::uint32_t kNone = ~0u;
  std::vector<std::uint32_t> places(near.pieces_.size(), kNone);
  std::vector<Line> lines(near.pieces_.size());
  for (const NearTriangles::Entry& entry : near.entries_) {
    if (entry.centreMm - off >= withinMm + radius) break;
    const PathPiece& piece = near.pieces_[entry.piece];
    const SweptTarget& target = targetOf(piece);
    if (places[entry.piece] == kNone) {
      places[entry.piece] = static_cast<std::uint32_t>(to.pieces_.size());
      lines[entry.piece] = lineOf(piece, centre);
      to.pieces_.push_back(piece);
    }
    const auto& [a, b] = lines[entry.piece];
    const double less = lessMm(piece);
    const double reachMm = less + withinMm + radius;
    if ((*target.bounds)[entry.triangle].isFarther(a, b, reachMm)) continue;
    const double apart = segmentToTriangle(a, b, target.surface->tree.triangles()[entry.triangle]);
    if (apart < reachMm) to.entries_.push_back({roundedDown(apart - less), places[entry.piece], entry.triangle});
  }
  sortByCentre(to.entries_);
  return to;
}

template <typename LeastOf>
void DistanceField::lookAt(const PathPiece& piece, const Vector3d& p, const Line& line, const LeastOf& leastOf,
                           double& best) const {
  const double less = lessMm(piece) + kRoundingMm;
  const double value = leastOf(line, best + less) - less;
  if (value >= best) return;
  if (isFine(piece)) {
    best = value;
    return;
  }
  const Vector3d middle = pathOf(piece).X_SR(piece.level + 1, 2 * piece.index + 1) * p;
  lookAt(piece.half(0), p, {line.a, middle}, leastOf, best);
  lookAt(piece.half(1), p, {middle, line.b}, leastOf, best);
}

double DistanceField::at(const Vector3d& p, const NearPaths& near, double capMm, double belowMm) const {
  double best = belowMm;
  const double off = (p - near.centre_).norm();
  for (const NearPaths::Entry& entry : near.entries_) {
    if (entry.centreMm - off >= best || best <= -capMm) break;
    const std::span nodes(near.nodes_.data() + entry.firstNode, entry.nodeCount);
    const BoundingTree& tree = targetOf(entry.piece).surface->tree;
    const auto leastOf = [&](const Line& line, double withinMm) {
      return segmentToSurface(tree, nodes, line.a, line.b, withinMm);
    };
    lookAt(entry.piece, p, lineOf(entry.piece, p), leastOf, best);
  }
  return best;
}

double DistanceField::at(const Vector3d& p, const NearTriangles& near, double capMm, double belowMm) const {
  double best = belowMm;
  const double off = (p - near.centre_).norm();
  std::uint32_t known = ~0u;
  Line line;
  for (const NearTriangles::Entry& entry : near.entries_) {
    if (entry.centreMm - off >= best || best <= -capMm) break;
    const PathPiece& piece = near.pieces_[entry.piece];
    if (entry.piece != known) {
      line = lineOf(piece, p);
      known = entry.piece;
    }
    const SweptTarget& target = targetOf(piece);
    const TriangleBound& bound = (*target.bounds)[entry.triangle];
    const TriangleCorners& corners = target.surface->tree.triangles()[entry.triangle];
    const auto leastOf = [&](const Line& some, double withinMm) {
      if (withinMm <= 0 || bound.isFarther(some.a, some.b, withinMm)) return withinMm;
      return segmentToTriangle(some.a, some.b, corners);
    };
    lookAt(piece, p, line, leastOf, best);
  }
  return best;
}

}  // namespace swingroom
