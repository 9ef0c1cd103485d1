#include "core/sweep/separation.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace swingroom {

using Eigen::Vector3d;

namespace {

Vector3d normalOf(const TriangleCorners& t) { return (t[1] - t[0]).cross(t[2] - t[0]).normalized(); }

TriangleCorners flattened(TriangleCorners t, const Vector3d& along) {
  for (Vector3d& corner : t) corner -= corner.dot(along) * along;
  return t;
}

}  // namespace

Separation::Separation(const MotionPiece& piece, const LaneMotion& lanes, const Vector3d& centre_A,
                       double radius, double marginMm)
    : lanes_(lanes), travel_(piece.middle, piece.halfWidth), together_(piece.together), margin_(marginMm) {
  if (lanes_.moves) rests_ = together_ ? travel_.restsMm(centre_A, radius) : travel_.bendsMm(centre_A, radius);
}

double Separation::acrossVelocity(const TriangleCorners& onA, const TriangleCorners& onB, double wantedMm) const {
  const Vector3d velocity = travel_.velocityAt((onB[0] + onB[1] + onB[2]) / 3);
  const double speed = velocity.norm();
  if (speed == 0) return 0;
  const Vector3d gone = velocity / speed;
  const ClosestPoints closest = closestBetweenTriangles(flattened(onA, gone), flattened(onB, gone));
  if (closest.distanceMm < wantedMm || closest.distanceMm <= 0) return 0;
  return along((closest.onB - closest.onA) / closest.distanceMm, onA, onB, wantedMm);
}

double Separation::bySplitting(const TriangleCorners& onA, const TriangleCorners& onB, double wantedMm,
                               int splitsLeft, std::uint64_t& tests) const {
  std::size_t longest = 0;
  const auto length = [&](std::size_t e) { return (onB[(e + 1) % 3] - onB[e]).norm(); };
  for (std::size_t e = 1; e < 3; ++e) {
    if (length(e) > length(longest)) longest = e;
  }
  if (splitsLeft == 0 || length(longest) < wantedMm) return 0;
  const Vector3d& p = onB[longest];
  const Vector3d& q = onB[(longest + 1) % 3];
  const Vector3d& r = onB[(longest + 2) % 3];
  const Vector3d middle = 0.5 * (p + q);
  double lower = std::numeric_limits<double>::infinity();
  for (const TriangleCorners& half : {TriangleCorners{p, middle, r}, TriangleCorners{middle, q, r}}) {
    ++tests;
    double ofHalf = proven(onA, half, wantedMm);
    if (ofHalf < wantedMm) ofHalf = bySplitting(onA, half, wantedMm, splitsLeft - 1, tests);
    if (ofHalf < wantedMm) return 0;
    lower = std::min(lower, ofHalf);
  }
  return lower;
}

/// The triangles' gap over the whole interval is at least this.
double Separation::proven(const TriangleCorners& onA, const TriangleCorners& onB, double wantedMm) const {
  const ClosestPoints closest = closestBetweenTriangles(onA, onB);
  if (closest.distanceMm <= 0) return 0;
  double lower = along((closest.onB - closest.onA) / closest.distanceMm, onA, onB, wantedMm);
  // Along a face's normal the separation may be less at the middle, and keep better.
  if (lower < wantedMm) lower = std::max(lower, along(normalOf(onA), onA, onB, wantedMm));
  if (lower < wantedMm) lower = std::max(lower, along(normalOf(onB), onA, onB, wantedMm));
  return lower;
}

double Separation::along(Vector3d direction, const TriangleCorners& onA, const TriangleCorners& onB,
                         double wantedMm) const {
  if (direction.dot(onB[0] - onA[0]) < 0) direction = -direction;
  const double endA = std::max({direction.dot(onA[0]), direction.dot(onA[1]), direction.dot(onA[2])});
  const double startB = std::min({direction.dot(onB[0]), direction.dot(onB[1]), direction.dot(onB[2])});
  if (startB - endA < wantedMm) return 0;
  const auto bend = travel_.bendOn(direction);
  double left = std::numeric_limits<double>::infinity();
  for (const Vector3d& corner : onB) {
    const double speed = speedAlong(direction, corner);
    const double turn = together_ ? bend.along + corner.dot(bend.across) : 0;
    left = std::min(left, direction.dot(corner) - endA - takenOff(speed, turn));
  }
  return left - travel_.restMm(rests_, direction) - margin_;
}

/// Of what is at `p` in the middle, at most; per step.
double Separation::speedAlong(const Vector3d& direction, const Vector3d& p) const {
  double speed = 0;
  for (const LaneMotion::Field& field : lanes_.fields) {
    const Eigen::Map<const Vector3d> linear(field.linear), angular(field.angular);
    speed += std::abs(direction.dot(linear + angular.cross(p)));
  }
  return speed;
}

/// The most that -u speed + u^2 bend / 2 takes off for u up to the half width.
double Separation::takenOff(double speed, double bend) const {
  const double h = travel_.halfWidth();
  return bend > 0 && speed < h * bend ? 0.5 * speed * speed / bend : h * speed - 0.5 * h * h * bend;
}

}  // namespace swingroom
