#include "core/motion/joint_evidence.h"

#include <algorithm>
#include <cmath>

#include "core/motion/surface_samples.h"

namespace swingroom {
namespace {

constexpr double kStillMm = 0.01;
constexpr double kStillRad = radFromDeg(0.01);
constexpr double kMostClearanceMm = 1.0;     // Of a pin in its hole, on the diameter.
constexpr double kMostInterferenceMm = 0.3;  // Likewise.
constexpr double kShortestMm = 0.3;          // Of a pin in its hole.
constexpr double kSameCentreMm = 0.1;        // Of a ball and its socket.
constexpr double kBallShare = 0.3;           // Of a whole ball; less is a bump.
constexpr double kSocketShare = 0.2;         // Likewise; less is a dimple.
constexpr double kPinCoverageRad = radFromDeg(120);
constexpr double kHoleCoverageRad = radFromDeg(190);  // Less would not hold the pin.

struct Stretch {
  double from, to;
  double length() const { return to - from; }
  bool counts() const { return length() >= kShortestMm; }
};

Stretch common(const RoundFace& a, const RoundFace& b, double shiftOfB) {
  return {std::max(a.fromMm, b.fromMm + shiftOfB), std::min(a.toMm, b.toMm + shiftOfB)};
}

bool fitsIn(double innerRadius, double outerRadius) {
  const double clearance = 2 * (outerRadius - innerRadius);
  return clearance >= -kMostInterferenceMm && clearance <= kMostClearanceMm;
}

std::optional<PinInHole> pinInHole(const RoundFace& a, const RoundFace& b, double slideMm) {
  if (a.outward == b.outward) return std::nullopt;
  const RoundFace& pin = a.outward ? a : b;
  const RoundFace& hole = a.outward ? b : a;
  const bool fits = fitsIn(pin.radiusMm, hole.radiusMm) && pin.coverageRad >= kPinCoverageRad &&
                    hole.coverageRad >= kHoleCoverageRad;
  const Stretch first = common(a, b, 0), second = common(a, b, slideMm);
  if (!fits || (!first.counts() && !second.counts())) return std::nullopt;
  PinInHole found{a.outward, pin.radiusMm, hole.radiusMm, hole.leastMm - pin.greatestMm, 0,
                  0,         false};
  found.inBothModes = first.counts() && second.counts();
  found.fromMm = first.counts() ? first.from : second.from;
  found.toMm = first.counts() ? first.to : second.to;
  if (second.counts()) {
    // Seen from a it is there, seen from b it is where b was before it travelled.
    found.fromMm = std::min({found.fromMm, second.from, second.from - slideMm});
    found.toMm = std::max({found.toMm, second.to, second.to - slideMm});
  }
  return found;
}

/// What a ball and socket, or a bump and dimple, are: `whole` tells which.
struct HeldBall {
  BallInSocket ball;
  bool whole = false;
};

std::vector<HeldBall> heldBalls(const std::vector<BallFace>& ofA,
                                const std::vector<BallFace>& ofB) {
  std::vector<HeldBall> held;
  for (const BallFace& a : ofA) {
    for (const BallFace& b : ofB) {
      if (a.outward == b.outward || std::abs(a.centreMm - b.centreMm) > kSameCentreMm) continue;
      const BallFace& ball = a.outward ? a : b;
      const BallFace& socket = a.outward ? b : a;
      if (!fitsIn(ball.radiusMm, socket.radiusMm)) continue;
      held.push_back({{a.outward, ball.radiusMm, socket.radiusMm, socket.leastMm - ball.greatestMm,
                       socket.centreMm},
                      ball.share >= kBallShare && socket.share >= kSocketShare});
    }
  }
  return held;
}

/// A band round a ball that looks like a pin.
bool isBandOf(const PinInHole& pin, const BallInSocket& ball) {
  return pin.fromMm >= ball.centreMm - ball.socketRadiusMm &&
         pin.toMm <= ball.centreMm + ball.socketRadiusMm &&
         pin.pinRadiusMm >= 0.8 * ball.ballRadiusMm;
}

/// One ball alone is a ball joint; with another or a pin on the same axis it holds a hinge.
void addBalls(const std::vector<HeldBall>& held, JointEvidence& evidence) {
  std::erase_if(evidence.pins, [&](const PinInHole& pin) {
    return std::any_of(held.begin(), held.end(),
                       [&](const HeldBall& ball) { return isBandOf(pin, ball.ball); });
  });
  if (held.size() == 1 && held.front().whole && evidence.pins.empty()) {
    evidence.ball = held.front().ball;
    return;
  }
  for (const auto& [ball, whole] : held) {
    evidence.pins.push_back({ball.ballIsFirst, ball.ballRadiusMm, ball.socketRadiusMm,
                             ball.leastGapMm, ball.centreMm - ball.socketRadiusMm,
                             ball.centreMm + ball.socketRadiusMm, true});
  }
}

std::optional<double> nearnessToAxis(const PartShape& a, const PartShape& b, const Screw& screw) {
  const auto first = a.inFirst->meetingFromLine(*b.inFirst, kNearMm, screw.point, screw.axis);
  const auto second = a.inSecond->meetingFromLine(*b.inSecond, kNearMm, a.D * screw.point,
                                                  a.D.linear() * screw.axis);
  if (!first || !second) return std::nullopt;
  return std::max(*first, *second);
}

/// Area of b that is near a in both modes and tangent to the motion, less what is pushed.
double slidingArea(const PartShape& a, const PartShape& b, const Screw& screw) {
  constexpr std::size_t kSamples = 2000;
  constexpr double kAlong = 0.1;   // Of a normal that is across the motion.
  constexpr double kAcross = 0.9;  // Of a normal along a turn's axis: flat sides slide at any turn.
  const bool turns = kindOf(screw) != ScrewKind::travel;
  const Eigen::AlignedBox3d reach(a.inFirst->bounds().min() - Vector3d::Constant(kNearMm),
                                  a.inFirst->bounds().max() + Vector3d::Constant(kNearMm));
  double sliding = 0, pushed = 0;
  for (const SurfaceSample& sample : sampledByArea(*b.mesh, kSamples)) {
    if (!reach.contains(sample.point)) continue;
    if (turns && std::abs(sample.normal.dot(screw.axis)) > kAcross) continue;
    if (!a.inFirst->nearestTo(sample.point, kNearMm)) continue;
    if (!a.inSecond->nearestTo(b.D * sample.point, kNearMm)) continue;
    const Vector3d velocity =
        screw.angleRad * screw.axis.cross(sample.point - screw.point) + screw.slideMm * screw.axis;
    const bool slides = std::abs(sample.normal.dot(velocity)) <= kAlong * velocity.norm();
    (slides ? sliding : pushed) += sample.areaMm2;
  }
  return sliding > 0 ? sliding * sliding / (sliding + pushed) : 0;
}

}  // namespace

Screw jointScrewOf(const Pose& X, const Vector3d& at) {
  const Screw screw = screwOf(X);
  return screw.angleRad > kStillRad ? screw : screwOf(translation(X * at - at));
}

ScrewKind kindOf(const Screw& screw) {
  if (screw.angleRad <= kStillRad) return ScrewKind::travel;
  return std::abs(screw.slideMm) <= kStillMm ? ScrewKind::turn : ScrewKind::both;
}

PartShape::PartShape(const TriangleMesh& meshInFirst, const Pose& displacement)
    : mesh(&meshInFirst),
      D(displacement),
      inFirst(std::make_shared<const SurfaceSearch>(meshInFirst)),
      inSecond(inFirst) {
  if (D.matrix() == Pose::Identity().matrix()) return;
  inSecond = std::make_shared<const SurfaceSearch>(transformed(meshInFirst, Eigen::Affine3d(D)));
}

AxisFaces axisFacesOf(const TriangleMesh& mesh, const Screw& screw) {
  const ScrewKind kind = kindOf(screw);
  AxisFaces faces;
  if (kind != ScrewKind::travel) faces.round = roundFacesAbout(mesh, screw.point, screw.axis);
  if (kind == ScrewKind::turn) faces.balls = ballFacesOn(mesh, screw.point, screw.axis);
  return faces;
}

double JointEvidence::score(ScrewKind kind) const {
  if (ball) return 1100 - 100 * std::abs(ball->socketRadiusMm - ball->ballRadiusMm);
  double best = 0;
  for (const PinInHole& pin : pins) {
    const double length = std::min(pin.toMm - pin.fromMm, 10.0);
    const double clearance = std::abs(pin.holeRadiusMm - pin.pinRadiusMm);
    best = std::max(best, (pin.inBothModes ? 1000 : 500) + 20 * length - 100 * clearance);
  }
  if (best > 0) return best;
  if (!nearInFirst && !nearInSecond) return 0;
  if (!nearInFirst || !nearInSecond) return 5;
  const double sliding = 100 * (1 - std::exp(-slidingAreaMm2 / 100));
  if (kind == ScrewKind::travel) return 50 + sliding;
  return 10 + 90 / (1 + fromAxisMm.value_or(1e3) / 5) + sliding;
}

JointEvidence evidenceBetween(const PartShape& a, const PartShape& b, const Screw& screw,
                              const AxisFaces& facesA, const AxisFaces& facesB) {
  JointEvidence evidence;
  for (const RoundFace& ofA : facesA.round) {
    for (const RoundFace& ofB : facesB.round) {
      if (const auto pin = pinInHole(ofA, ofB, screw.slideMm)) evidence.pins.push_back(*pin);
    }
  }
  addBalls(heldBalls(facesA.balls, facesB.balls), evidence);
  evidence.nearInFirst = a.inFirst->isNear(*b.inFirst, kNearMm);
  evidence.nearInSecond = a.inSecond->isNear(*b.inSecond, kNearMm);
  if (evidence.nearInFirst && evidence.nearInSecond && !evidence.isHeld()) {
    const bool turns = kindOf(screw) != ScrewKind::travel;
    if (turns) evidence.fromAxisMm = nearnessToAxis(a, b, screw);
    evidence.slidingAreaMm2 = slidingArea(a, b, screw);
  }
  return evidence;
}

}  // namespace swingroom
