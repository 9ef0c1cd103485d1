#include "core/print/set/bridges.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace swingroom {
namespace {

using Eigen::Vector2d;

/// A piece with more rays times edges is taken as no bridge: a sculpted underside, not a ceiling.
constexpr std::size_t kBridgeWork = 20'000'000;
constexpr double kBridgeRounding = 1e-7;

struct BridgeEdge {
  Vector2d a, b;
  bool held = false;
};

class BridgeFinder {
 public:
  BridgeFinder(const StandShape& shape, const Vector3d& down, const std::vector<bool>& overhang,
               double span)
      : shape_(shape), down_(down), overhang_(overhang), span_(span) {
    x_ = down.unitOrthogonal();
    y_ = down.cross(x_);
  }

  std::vector<bool> find() {
    bridged_.assign(overhang_.size(), false);
    std::vector<bool> seen(overhang_.size(), false);
    for (std::uint32_t t = 0; t < overhang_.size(); ++t) {
      if (!overhang_[t] || seen[t]) continue;
      lookAt(pieceFrom(t, seen));
    }
    return bridged_;
  }

 private:
  Vector2d flat(const Vector3d& p) const { return {x_.dot(p), y_.dot(p)}; }

  std::vector<std::uint32_t> pieceFrom(std::uint32_t first, std::vector<bool>& seen) const {
    std::vector<std::uint32_t> piece{first};
    seen[first] = true;
    for (std::size_t i = 0; i < piece.size(); ++i) {
      for (const std::uint32_t next : shape_.neighbours[piece[i]]) {
        if (next == StandShape::kNone || !overhang_[next] || seen[next]) continue;
        seen[next] = true;
        piece.push_back(next);
      }
    }
    return piece;
  }

  /// Below the edge the part goes on: the face beyond it leads down.
  bool isHeld(std::uint32_t triangle, int edge) const {
    const auto from = static_cast<std::size_t>(edge);
    const std::uint32_t beyond = shape_.neighbours[triangle][from];
    if (beyond == StandShape::kNone) return false;
    const Triangle& own = shape_.mesh->triangles[triangle];
    const std::uint32_t a = own[from], b = own[(from + 1) % 3];
    const double edgeDown =
        std::max(down_.dot(shape_.mesh->vertices[a]), down_.dot(shape_.mesh->vertices[b]));
    for (const std::uint32_t v : shape_.mesh->triangles[beyond]) {
      if (v == a || v == b) continue;
      return down_.dot(shape_.mesh->vertices[v]) > edgeDown + kBridgeRounding;
    }
    return false;
  }

  std::vector<BridgeEdge> rimOf(const std::vector<std::uint32_t>& piece) const {
    std::vector<BridgeEdge> rim;
    for (const std::uint32_t t : piece) {
      for (int i = 0; i < 3; ++i) {
        const std::uint32_t beyond = shape_.neighbours[t][static_cast<std::size_t>(i)];
        if (beyond != StandShape::kNone && overhang_[beyond]) continue;
        rim.push_back({flat(shape_.mesh->corner(t, i)), flat(shape_.mesh->corner(t, (i + 1) % 3)),
                       isHeld(t, i)});
      }
    }
    return rim;
  }

  /// At right angles to held edges, by how long those are.
  static std::vector<Vector2d> waysAcross(const std::vector<BridgeEdge>& rim) {
    constexpr std::size_t kMost = 6;
    constexpr double kAlike = 0.966;  // 15 degrees.
    std::vector<std::pair<double, Vector2d>> ways;
    for (const BridgeEdge& edge : rim) {
      const Vector2d along = edge.b - edge.a;
      const double length = along.norm();
      if (!edge.held || length <= 0) continue;
      const Vector2d across = Vector2d(-along.y(), along.x()) / length;
      const auto same = std::find_if(ways.begin(), ways.end(), [&](const auto& way) {
        return std::abs(way.second.dot(across)) > kAlike;
      });
      if (same == ways.end()) {
        ways.emplace_back(length, across);
      } else {
        same->first += length;
      }
    }
    std::stable_sort(ways.begin(), ways.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<Vector2d> across;
    for (std::size_t i = 0; i < std::min(kMost, ways.size()); ++i) across.push_back(ways[i].second);
    return across;
  }

  /// Where the line first leaves the piece; infinite if it meets an edge that is not held.
  static double heldAt(const Vector2d& from, const Vector2d& way,
                       const std::vector<BridgeEdge>& rim) {
    double nearest = std::numeric_limits<double>::infinity();
    bool held = false;
    for (const BridgeEdge& edge : rim) {
      const Vector2d along = edge.b - edge.a, to = edge.a - from;
      const double cross = way.x() * along.y() - way.y() * along.x();
      if (std::abs(cross) < 1e-15) continue;
      const double distance = (to.x() * along.y() - to.y() * along.x()) / cross;
      const double part = (to.x() * way.y() - to.y() * way.x()) / cross;
      if (distance < 0 || part < 0 || part > 1 || distance >= nearest) continue;
      nearest = distance;
      held = edge.held;
    }
    return held ? nearest : std::numeric_limits<double>::infinity();
  }

  void lookAt(const std::vector<std::uint32_t>& piece) {
    const std::vector<BridgeEdge> rim = rimOf(piece);
    const std::vector<Vector2d> ways = waysAcross(rim);
    if (piece.size() * rim.size() * ways.size() > kBridgeWork) return;
    for (const std::uint32_t t : piece) {
      const Vector2d middle = flat(
          (shape_.mesh->corner(t, 0) + shape_.mesh->corner(t, 1) + shape_.mesh->corner(t, 2)) / 3);
      bridged_[t] = std::any_of(ways.begin(), ways.end(), [&](const Vector2d& way) {
        const double there = heldAt(middle, way, rim);
        return there <= span_ && there + heldAt(middle, -way, rim) <= span_ + kBridgeRounding;
      });
    }
  }

  const StandShape& shape_;
  Vector3d down_, x_, y_;
  const std::vector<bool>& overhang_;
  double span_;
  std::vector<bool> bridged_;
};

}  // namespace

std::vector<bool> bridgesOf(const StandShape& shape, const Vector3d& down_P,
                            const std::vector<bool>& overhang, double spanMm) {
  return BridgeFinder(shape, down_P, overhang, spanMm).find();
}

}  // namespace swingroom
