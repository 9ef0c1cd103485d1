#include "core/mesh/ball_faces.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <span>
#include <stdexcept>

namespace swingroom {
namespace {

using Eigen::Vector3d;

constexpr double kSteepest =
    0.95;  // Of a normal along the line; beyond, the centre is ill-defined.
constexpr double kLeastSpread = 0.5;  // Of the normals along the line; a cone has one value.
constexpr double kLeastShare = 0.05;
constexpr double kWidestFacet = 0.5;  // Circle round a facet, against the ball's radius.

/// A triangle as part of the ball, centred on the line, that its three corners lie on.
struct Cap {
  bool outward = false;
  double centre = 0;
  double radius = 0;
  double least = 0;
  double slope = 0;  // Of the normal along the line.
  double area = 0;
};

/// Where the line through the circumcentre along the normal meets the axis, if it does.
std::optional<Cap> capOf(const Vector3d& a, const Vector3d& b, const Vector3d& c,
                         const Vector3d& through, const Vector3d& along, double tolerance) {
  const Vector3d ab = b - a, ac = c - a, across = ab.cross(ac);
  const double twiceArea = across.norm();
  if (twiceArea == 0) return std::nullopt;
  const Vector3d normal = across / twiceArea;
  const double slope = normal.dot(along);
  if (std::abs(slope) > kSteepest) return std::nullopt;
  const Vector3d toCentre =
      (ac.squaredNorm() * across.cross(ab) + ab.squaredNorm() * ac.cross(across)) /
      (2 * twiceArea * twiceArea);
  const Vector3d w = a + toCentre - through;
  const Vector3d wAcross = w - w.dot(along) * along, nAcross = normal - slope * along;
  const double t = -wAcross.dot(nAcross) / nAcross.squaredNorm();
  if ((wAcross + t * nAcross).norm() > 2 * tolerance) return std::nullopt;
  const double radius = std::hypot(toCentre.norm(), t);
  if (toCentre.norm() > kWidestFacet * radius) return std::nullopt;
  return Cap{t < 0, w.dot(along) + t * slope, radius, std::abs(t), slope, twiceArea / 2};
}

std::optional<BallFace> ballOf(std::span<const Cap> caps) {
  BallFace ball;
  ball.outward = caps.front().outward;
  ball.leastMm = caps.front().least;
  double area = 0, lowest = 1, highest = -1;
  for (const Cap& cap : caps) {
    area += cap.area;
    ball.centreMm += cap.area * cap.centre;
    ball.radiusMm += cap.area * cap.radius;
    ball.leastMm = std::min(ball.leastMm, cap.least);
    ball.greatestMm = std::max(ball.greatestMm, cap.radius);
    lowest = std::min(lowest, cap.slope);
    highest = std::max(highest, cap.slope);
  }
  ball.centreMm /= area;
  ball.radiusMm /= area;
  ball.share = area / (4 * std::numbers::pi * ball.radiusMm * ball.radiusMm);
  if (ball.share < kLeastShare || highest - lowest < kLeastSpread) return std::nullopt;
  return ball;
}

/// Calls `use` with each run of `caps`, sorted by `key`, in which no step is above `gap`.
template <typename Key, typename Use>
void forEachRun(std::span<Cap> caps, Key key, double gap, Use use) {
  std::sort(caps.begin(), caps.end(), [&](const Cap& a, const Cap& b) { return key(a) < key(b); });
  std::size_t begin = 0;
  for (std::size_t i = 1; i <= caps.size(); ++i) {
    if (i < caps.size() && key(caps[i]) - key(caps[i - 1]) <= gap) continue;
    use(caps.subspan(begin, i - begin));
    begin = i;
  }
}

}  // namespace

std::vector<BallFace> ballFacesOn(const TriangleMesh& mesh, const Vector3d& through,
                                  const Vector3d& along, double toleranceMm) {
  if (std::abs(along.norm() - 1) > 1e-9) {
    throw std::invalid_argument("ballFacesOn: `along` is not a unit vector");
  }
  std::vector<Cap> caps[2];
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto cap =
        capOf(mesh.corner(t, 0), mesh.corner(t, 1), mesh.corner(t, 2), through, along, toleranceMm);
    if (cap) caps[cap->outward].push_back(*cap);
  }
  std::vector<BallFace> balls;
  for (std::vector<Cap>& ofOneKind : caps) {
    // By radius first: other round faces have centres all along the line, but few of one radius.
    const auto radius = [](const Cap& cap) { return cap.radius; };
    const auto centre = [](const Cap& cap) { return cap.centre; };
    forEachRun(ofOneKind, radius, toleranceMm, [&](std::span<Cap> ofOneRadius) {
      forEachRun(ofOneRadius, centre, toleranceMm, [&](std::span<Cap> run) {
        if (const auto ball = ballOf(run)) balls.push_back(*ball);
      });
    });
  }
  return balls;
}

}  // namespace swingroom
