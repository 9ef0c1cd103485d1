#include "core/print/joints/socket_lip.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/mesh/closest_points.h"
#include "core/print/joints/snap_ring.h"

namespace swingroom {
namespace {

constexpr int kLipWays = 400;  // Looked at first, spread over the sphere: about 10 degrees apart.
constexpr int kLipStarts = 4;  // The widest of them are followed.
constexpr double kLipStepRad = 0.12;
constexpr double kLipFinestRad = 1e-6;
constexpr double kLipReach = 2.5;  // Radii of the ball: what is farther is no lip.
constexpr int kLipTurn = 180;      // Directions round the way out.

/// With the ball about its corners.
struct LipTriangle {
  TriangleCorners corners;
  Vector3d middle;
  double radius = 0;
};
using LipTriangles = std::vector<LipTriangle>;

/// Triangles of the socket's part near the ball, from its centre, assembly axes.
LipTriangles lipTriangles(const RigPart& part, const SocketFit& fit) {
  const double reach = kLipReach * fit.ballRadiusMm;
  const Pose X_CP = translation(-fit.centre) * part.X_WP;
  LipTriangles near;
  for (const TriangleCorners& t : part.shape->tree.triangles()) {
    const TriangleCorners moved{X_CP * t[0], X_CP * t[1], X_CP * t[2]};
    if (closestPointOnTriangle(Vector3d::Zero(), moved).norm() >= reach) continue;
    const Vector3d c = (moved[0] + moved[1] + moved[2]) / 3;
    near.push_back(
        {moved, c,
         std::max({(moved[0] - c).norm(), (moved[1] - c).norm(), (moved[2] - c).norm()})});
  }
  return near;
}

/// Part of a triangle ahead of the plane through the origin across `z`, as (x, y) across it.
/// @returns How many corners, at most 4.
int aheadOf(const TriangleCorners& t, const Eigen::Matrix3d& axes,
            std::array<Eigen::Vector3d, 4>& out) {
  TriangleCorners p;
  for (std::size_t i = 0; i < 3; ++i) p[i] = axes.transpose() * t[i];
  int count = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const Vector3d &a = p[i], &b = p[(i + 1) % 3];
    if (a.z() > 0) out[static_cast<std::size_t>(count++)] = a;
    if ((a.z() > 0) != (b.z() > 0))
      out[static_cast<std::size_t>(count++)] = a + a.z() / (a.z() - b.z()) * (b - a);
  }
  return count;
}

Eigen::Matrix3d axesAlong(const Vector3d& z) {
  Eigen::Matrix3d axes;
  axes.col(2) = z;
  axes.col(0) = z.unitOrthogonal();
  axes.col(1) = z.cross(axes.col(0));
  return axes;
}

/// Calls `use` with each triangle (flat, across the way) of what is ahead and nearer to the way
/// than `within()`.
template <typename Within, typename Use>
void eachAhead(const LipTriangles& triangles, const Eigen::Matrix3d& axes, const Within& within,
               const Use& use) {
  const Vector3d z = axes.col(2);
  std::array<Eigen::Vector3d, 4> corners;
  for (const LipTriangle& t : triangles) {
    const double along = t.middle.dot(z), far = within() + t.radius;
    if (along + t.radius <= 0 || (t.middle - along * z).squaredNorm() >= far * far) continue;
    const int count = aheadOf(t.corners, axes, corners);
    for (int i = 0; i < count; ++i) corners[static_cast<std::size_t>(i)].z() = 0;
    for (int i = 2; i < count; ++i) {
      use(TriangleCorners{corners[0], corners[static_cast<std::size_t>(i - 1)],
                          corners[static_cast<std::size_t>(i)]});
    }
  }
}

/// The least distance of what is ahead from the way along `z`, at most `most`; no more than that it
/// is below `enough`, if it is.
double clearAlong(const LipTriangles& triangles, const Vector3d& z, double most,
                  double enough = 0) {
  double least = most;
  eachAhead(
      triangles, axesAlong(z), [&] { return least > enough ? least : 0; },
      [&](const TriangleCorners& flat) {
        least = std::min(least, closestPointOnTriangle(Vector3d::Zero(), flat).norm());
      });
  return least;
}

Vector3d tilted(const Vector3d& z, double angle, double by) {
  const Eigen::Matrix3d axes = axesAlong(z);
  const Vector3d side = std::cos(angle) * axes.col(0) + std::sin(angle) * axes.col(1);
  return (std::cos(by) * z + std::sin(by) * side).normalized();
}

struct LipWay {
  Vector3d z = Vector3d::UnitZ();
  double clearMm = 0;
};

/// Climbs from `way` until no direction near it is wider.
LipWay widestNear(const LipTriangles& triangles, LipWay way, double most) {
  for (double step = kLipStepRad; step > kLipFinestRad;) {
    LipWay best = way;
    for (int i = 0; i < 8; ++i) {
      const Vector3d z = tilted(way.z, i * kPi / 4, step);
      const double clear = clearAlong(triangles, z, most, best.clearMm);
      if (clear > best.clearMm) best = {z, clear};
    }
    if (best.clearMm > way.clearMm)
      way = best;
    else
      step /= 2;
  }
  return way;
}

/// Where several ways are free, the middle of them.
LipWay widestWay(const LipTriangles& triangles, double most) {
  std::vector<LipWay> ways;
  Vector3d freeSum = Vector3d::Zero();
  for (int i = 0; i < kLipWays; ++i) {
    // A spiral of even steps in height and of the golden angle round.
    const double h = 1 - (2 * i + 1.0) / kLipWays, round = i * kPi * (3 - std::sqrt(5.0));
    const double r = std::sqrt(1 - h * h);
    const Vector3d z(r * std::cos(round), r * std::sin(round), h);
    ways.push_back({z, clearAlong(triangles, z, most)});
    if (ways.back().clearMm >= most) freeSum += z;
  }
  if (freeSum.norm() > 1e-9) return {freeSum.normalized(), most};
  std::stable_sort(ways.begin(), ways.end(),
                   [](const LipWay& a, const LipWay& b) { return a.clearMm > b.clearMm; });
  LipWay best;
  for (int i = 0; i < kLipStarts; ++i) {
    const LipWay way = widestNear(triangles, ways[static_cast<std::size_t>(i)], most);
    if (way.clearMm > best.clearMm) best = way;
  }
  return best;
}

/// How far along `z` the socket's own round face reaches.
double lipAlong(const LipTriangles& triangles, const SocketFit& fit, const Vector3d& z) {
  double most = 0;
  for (const LipTriangle& t : triangles) {
    for (const Vector3d& p : t.corners) {
      if (std::abs(p.norm() - fit.socketRadiusMm) < 0.01) most = std::max(most, p.dot(z));
    }
  }
  return most;
}

/// How much of a turn something narrower than the ball stands round the way.
double ringShareAlong(const LipTriangles& triangles, const Vector3d& z, double radius) {
  std::array<bool, kLipTurn> met{};
  eachAhead(
      triangles, axesAlong(z), [&] { return radius; },
      [&](const TriangleCorners& flat) {
        if (closestPointOnTriangle(Vector3d::Zero(), flat).norm() >= radius) return;
        for (std::size_t i = 0; i < 3; ++i) {
          // Of each edge the places within the radius.
          const Vector3d &a = flat[i], &b = flat[(i + 1) % 3];
          const int steps = 1 + static_cast<int>((b - a).norm() / radius * kLipTurn / 4);
          for (int s = 0; s <= steps; ++s) {
            const Vector3d p = a + s / static_cast<double>(steps) * (b - a);
            if (p.norm() >= radius || p.norm() < 1e-9) continue;
            const double turn = std::atan2(p.y(), p.x()) / (2 * kPi) + 0.5;
            met[static_cast<std::size_t>(turn * kLipTurn) % kLipTurn] = true;
          }
        }
      });
  return static_cast<double>(std::count(met.begin(), met.end(), true)) / kLipTurn;
}

}  // namespace

SocketLip socketLip(const RigPart& socket, const SocketFit& fit) {
  const LipTriangles triangles = lipTriangles(socket, fit);
  const LipWay way = widestWay(triangles, fit.ballRadiusMm);
  SocketLip lip;
  lip.outwards_W = way.z;
  lip.openingMm = 2 * way.clearMm;
  lip.strain = openingStrain(2 * fit.ballRadiusMm, lip.openingMm);
  if (way.clearMm >= fit.ballRadiusMm) return lip;
  lip.lipMm = lipAlong(triangles, fit, way.z);
  lip.ringShare = ringShareAlong(triangles, way.z, fit.ballRadiusMm);
  return lip;
}

}  // namespace swingroom
