#include "core/proximity/swept_piece.h"

#include <algorithm>
#include <vector>

#include "core/tree/point_query.h"

namespace swingroom {
namespace {

constexpr int kMostCompared = 8;  ///< Triangles of the boundary, before a piece is rather halved.
constexpr int kMostLooked = 200;  ///< Nodes of the boundary, likewise.

}  // namespace

double meetsUpTo(const BoundingTree& boundary, const TriangleCorners& nearestWall,
                 const SweptPiece& swept, const WayUp& way, double topMm) {
  const Vector3d& up = way.up;
  // Two directions that mostly do: of the nearest point, and across the piece.
  const Vector3d nearest = closestPointOnTriangle(way.centre_S, nearestWall);
  const Vector3d off_S = way.centre_S - nearest;
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
    const Vector3d near = swept.towards(closestPointOnTriangle(way.centre_S, wall));
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
  look(nearestWall);
  int looked = 0;
  std::vector<std::uint32_t> stack{0};
  while (!stack.empty() && highMm < kFar) {
    const auto& node = boundary.nodes()[stack.back()];
    stack.pop_back();
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
      stack.push_back(node.first);
      stack.push_back(node.first + 1);
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      look(boundary.triangles()[i]);
    }
  }
  return highMm;
}

void cutAbove(PieceFrame& frame, const std::array<double, kMostHull>& heights, double highMm) {
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

}  // namespace swingroom
