#include "core/room/space/triangle_split.h"

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <numeric>
#include <set>

namespace swingroom {
namespace {

using Eigen::Vector2d;
using Loop = std::vector<std::uint32_t>;
using PlaceOf = std::function<Vector2d(std::uint32_t)>;

double crossOf(const Vector2d& a, const Vector2d& b) { return a.x() * b.y() - a.y() * b.x(); }
double turnAt(const Vector2d& a, const Vector2d& b, const Vector2d& c) { return crossOf(b - a, c - a); }

double loopArea(const Loop& loop, const PlaceOf& at) {
  const Vector2d from = at(loop.front());
  double twice = 0;
  for (std::size_t i = 1; i + 1 < loop.size(); ++i) twice += turnAt(from, at(loop[i]), at(loop[i + 1]));
  return 0.5 * twice;
}

bool isIn(const Vector2d& p, const Loop& loop, const PlaceOf& at) {
  bool inside = false;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Vector2d a = at(loop[i]), b = at(loop[(i + 1) % loop.size()]);
    if ((a.y() > p.y()) == (b.y() > p.y())) continue;
    if ((turnAt(a, b, p) > 0) == (b.y() > a.y())) inside = !inside;
  }
  return inside;
}

/// Lines along the segments: from rim to rim, and closed ones.
struct Lines {
  std::vector<Loop> chains, loops;
};

std::optional<Lines> linesOf(const TriangleToSplit& triangle) {
  std::map<std::uint32_t, std::vector<std::uint32_t>> next;
  for (const auto& [a, b] : triangle.segments) {
    next[a].push_back(b);
    next[b].push_back(a);
  }
  const std::set<std::uint32_t> rim(triangle.rim.begin(), triangle.rim.end());
  for (const auto& [point, others] : next) {
    if (others.size() != (rim.contains(point) ? 1u : 2u)) return std::nullopt;
  }
  Lines lines;
  std::set<std::uint32_t> done;
  const auto follow = [&](std::uint32_t from) {
    Loop line{from};
    done.insert(from);
    for (std::uint32_t before = from, here = next[from].front(); !done.contains(here);) {
      line.push_back(here);
      done.insert(here);
      const auto& others = next[here];
      const std::uint32_t after = others.size() == 1 ? here : others[0] == before ? others[1] : others[0];
      before = here;
      here = after;
    }
    return line;
  };
  for (const std::uint32_t point : triangle.rim) {
    if (!next.contains(point) || done.contains(point)) continue;
    lines.chains.push_back(follow(point));
    if (lines.chains.back().size() < 2 || !rim.contains(lines.chains.back().back())) return std::nullopt;
  }
  for (const auto& [point, others] : next) {
    if (!done.contains(point)) lines.loops.push_back(follow(point));
  }
  return lines;
}

/// Divides the polygon that holds both ends of the chain.
bool divide(std::vector<Loop>& polygons, const Loop& chain) {
  for (Loop& polygon : polygons) {
    const auto from = std::find(polygon.begin(), polygon.end(), chain.front());
    if (from == polygon.end()) continue;
    std::rotate(polygon.begin(), from, polygon.end());
    const auto to = std::find(polygon.begin(), polygon.end(), chain.back());
    if (to == polygon.end()) return false;
    // From the chain's end on round the rim to its start, and back along the chain.
    Loop other(to, polygon.end());
    other.insert(other.end(), chain.begin(), chain.end() - 1);
    polygon.erase(to + 1, polygon.end());
    polygon.insert(polygon.end(), chain.rbegin() + 1, chain.rend() - 1);
    polygons.push_back(std::move(other));
    return true;
  }
  return false;
}

void addEdges(const Loop& loop, SplitPiece& piece) {
  for (std::size_t i = 0; i < loop.size(); ++i) piece.edges.emplace_back(loop[i], loop[(i + 1) % loop.size()]);
}

bool properlyCross(const Vector2d& a, const Vector2d& b, const Vector2d& c, const Vector2d& d) {
  return (turnAt(a, b, c) > 0) != (turnAt(a, b, d) > 0) && (turnAt(c, d, a) > 0) != (turnAt(c, d, b) > 0);
}

/// Joins a hole to the outer loop by a cut to and fro, which crosses no other edge.
void joinHole(Loop& outer, const Loop& hole, const std::vector<Loop>& loops, const PlaceOf& at) {
  const auto rightmost = std::max_element(hole.begin(), hole.end(), [&](std::uint32_t a, std::uint32_t b) {
    return at(a).x() < at(b).x();
  });
  const Vector2d from = at(*rightmost);
  std::vector<std::size_t> order(outer.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return (at(outer[a]) - from).squaredNorm() < (at(outer[b]) - from).squaredNorm();
  });
  const auto isClear = [&](std::uint32_t to) {
    const auto crosses = [&](const Loop& loop) {
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const std::uint32_t a = loop[i], b = loop[(i + 1) % loop.size()];
        if (a == to || b == to || a == *rightmost || b == *rightmost) continue;
        if (properlyCross(from, at(to), at(a), at(b))) return true;
      }
      return false;
    };
    return !crosses(outer) && std::none_of(loops.begin(), loops.end(), crosses);
  };
  // The cut has to leave the outer corner inwards.
  const auto leavesInwards = [&](std::size_t place) {
    const Vector2d here = at(outer[place]), before = at(outer[(place + outer.size() - 1) % outer.size()]),
                   after = at(outer[(place + 1) % outer.size()]);
    const bool left = turnAt(here, after, from) > 0, right = turnAt(before, here, from) > 0;
    return turnAt(before, here, after) > 0 ? left && right : left || right;
  };
  std::size_t best = order.front();
  for (const std::size_t place : order) {
    if (!leavesInwards(place) || !isClear(outer[place])) continue;
    best = place;
    break;
  }
  Loop cut(rightmost, hole.end());
  cut.insert(cut.end(), hole.begin(), rightmost + 1);
  cut.push_back(outer[best]);
  outer.insert(outer.begin() + static_cast<std::ptrdiff_t>(best) + 1, cut.begin(), cut.end());
}

/// Cuts ears off a loop, by its corners' places in it.
class EarCutter {
 public:
  EarCutter(const Loop& loop, const TriangleToSplit& of) : loop_(loop), left_(loop.size()) {
    for (const std::uint32_t corner : loop) {
      at_.push_back(of.at(corner));
      edges_.push_back(of.edgesAt(corner));
    }
    std::iota(left_.begin(), left_.end(), 0u);
  }

  std::vector<Triangle> run() {
    std::vector<Triangle> triangles;
    std::size_t i = 0, failed = 0;
    while (left_.size() > 3) {
      const std::size_t count = left_.size();
      i %= count;
      if (!willDo(i, failed / count) && failed++ < 3 * count) {
        ++i;
        continue;
      }
      triangles.push_back({loop_[left_[before(i)]], loop_[left_[i]], loop_[left_[after(i)]]});
      left_.erase(left_.begin() + static_cast<std::ptrdiff_t>(i));
      failed = 0;
      ++i;  // Ears side by side in turn would make a fan of slivers.
    }
    triangles.push_back({loop_[left_[0]], loop_[left_[1]], loop_[left_[2]]});
    return triangles;
  }

 private:
  std::size_t before(std::size_t i) const { return i == 0 ? left_.size() - 1 : i - 1; }
  std::size_t after(std::size_t i) const { return i + 1 == left_.size() ? 0 : i + 1; }

  /// @param round  How often all were looked at in vain: then slivers will do, then, since rounding has spoilt them
  ///     all, any that does not lie along an edge, which the triangle beyond it would have too.
  bool willDo(std::size_t i, std::size_t round) const {
    if ((edges_[left_[before(i)]] & edges_[left_[i]] & edges_[left_[after(i)]]) != 0) return false;
    return round >= 2 || isEar(i, round == 0 ? 1e-4 : 1e-14);
  }

  /// @param least  Twice its area by the squares of its sides.
  bool isEar(std::size_t i, double least) const {
    const std::uint32_t ia = left_[before(i)], ib = left_[i], ic = left_[after(i)];
    const Vector2d &a = at_[ia], &b = at_[ib], &c = at_[ic];
    if (!(turnAt(a, b, c) > least * ((b - a).squaredNorm() + (c - b).squaredNorm()))) return false;
    const Vector2d low = a.cwiseMin(b).cwiseMin(c), high = a.cwiseMax(b).cwiseMax(c);
    return std::none_of(left_.begin(), left_.end(), [&](std::uint32_t other) {
      const Vector2d& p = at_[other];
      if (p.x() < low.x() || p.x() > high.x() || p.y() < low.y() || p.y() > high.y()) return false;
      if (loop_[other] == loop_[ia] || loop_[other] == loop_[ib] || loop_[other] == loop_[ic]) return false;
      return turnAt(a, b, p) >= 0 && turnAt(b, c, p) >= 0 && turnAt(c, a, p) >= 0;
    });
  }

  const Loop& loop_;
  std::vector<Vector2d> at_;
  std::vector<unsigned> edges_;
  std::vector<std::uint32_t> left_;
};

/// Triangles of a polygon with holes: as many as there have to be, whatever the rounding of its corners.
/// @param loops  The outer one counter-clockwise, then the holes clockwise.
std::vector<Triangle> triangulated(const std::vector<Loop>& loops, const TriangleToSplit& of) {
  const PlaceOf& at = of.at;
  Loop left = loops.front();
  std::vector<Loop> holes(loops.begin() + 1, loops.end());
  std::stable_sort(holes.begin(), holes.end(), [&](const Loop& a, const Loop& b) {
    const auto right = [&](const Loop& loop) {
      double most = -std::numeric_limits<double>::infinity();
      for (const std::uint32_t p : loop) most = std::max(most, at(p).x());
      return most;
    };
    return right(a) > right(b);
  });
  for (const Loop& hole : holes) joinHole(left, hole, holes, at);
  return EarCutter(left, of).run();
}

}  // namespace

std::optional<std::vector<SplitPiece>> splitTriangle(const TriangleToSplit& triangle) {
  std::optional<Lines> lines = linesOf(triangle);
  if (!lines) return std::nullopt;
  std::vector<Loop> outers{triangle.rim};
  for (const Loop& chain : lines->chains) {
    if (!divide(outers, chain)) return std::nullopt;
  }
  for (const Loop& outer : outers) {
    if (outer.size() < 3) return std::nullopt;
  }
  for (Loop& loop : lines->loops) {
    if (loop.size() < 3) return std::nullopt;
    if (loopArea(loop, triangle.at) < 0) std::reverse(loop.begin(), loop.end());
  }
  // Small ones in large ones: the first that holds a loop is the piece that it is a hole of.
  std::stable_sort(lines->loops.begin(), lines->loops.end(), [&](const Loop& a, const Loop& b) {
    return loopArea(a, triangle.at) < loopArea(b, triangle.at);
  });
  const std::size_t loopCount = lines->loops.size();
  std::vector<Loop> all = lines->loops;
  all.insert(all.end(), outers.begin(), outers.end());
  std::vector<std::vector<Loop>> pieces;
  for (const Loop& loop : all) pieces.push_back({loop});
  for (std::size_t l = 0; l < loopCount; ++l) {
    const Vector2d p = triangle.at(all[l].front());
    std::size_t holder = l + 1;
    while (holder + 1 < all.size() && !isIn(p, all[holder], triangle.at)) ++holder;
    pieces[holder].emplace_back(all[l].rbegin(), all[l].rend());
  }
  std::vector<SplitPiece> split;
  for (const auto& loops : pieces) {
    SplitPiece piece;
    for (const Loop& loop : loops) addEdges(loop, piece);
    piece.triangles = triangulated(loops, triangle);
    split.push_back(std::move(piece));
  }
  return split;
}

}  // namespace swingroom
