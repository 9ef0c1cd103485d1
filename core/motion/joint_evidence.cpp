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

std::optional<PinInHole> pinInHole(const RoundFace& a, const RoundFace& b, double slideMm) {
  if (a.outward == b.outward) return std::nullopt;
  const RoundFace& pin = a.outward ? a : b;
  const RoundFace& hole = a.outward ? b : a;
  const double clearance = 2 * (hole.radiusMm - pin.radiusMm);
  const bool fits = clearance >= -kMostInterferenceMm && clearance <= kMostClearanceMm &&
                    pin.coverageRad >= kPinCoverageRad && hole.coverageRad >= kHoleCoverageRad;
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

double JointEvidence::score(ScrewKind kind) const {
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
                              const std::vector<RoundFace>& roundA,
                              const std::vector<RoundFace>& roundB) {
  JointEvidence evidence;
  const bool turns = kindOf(screw) != ScrewKind::travel;
  for (const RoundFace& ofA : roundA) {
    for (const RoundFace& ofB : roundB) {
      const auto pin = turns ? pinInHole(ofA, ofB, screw.slideMm) : std::nullopt;
      if (pin) evidence.pins.push_back(*pin);
    }
  }
  evidence.nearInFirst = a.inFirst->isNear(*b.inFirst, kNearMm);
  evidence.nearInSecond = a.inSecond->isNear(*b.inSecond, kNearMm);
  if (evidence.nearInFirst && evidence.nearInSecond && evidence.pins.empty()) {
    if (turns) evidence.fromAxisMm = nearnessToAxis(a, b, screw);
    evidence.slidingAreaMm2 = slidingArea(a, b, screw);
  }
  return evidence;
}

}  // namespace swingroom
