#include "core/rigging/joint_edge.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/parallel.h"
#include "core/rigging/rig_words.h"

namespace swingroom {
namespace {

constexpr double kZoneRoundMm = 0.4;   // Round a hole.
constexpr double kZoneBeyondMm = 0.2;  // Beyond both its ends,
constexpr double kZonePastPinMm = 2;   // but no farther past the pin than this.
constexpr double kTouchingMm = 0.15;
constexpr double kLeastAreaMm2 = 2;
constexpr double kLeastTravel = 0.8;  // Of a telescope, in diameters of its thinnest step.

JointChoice choiceOf(JointType type, std::string reason, double strength) {
  JointChoice choice;
  choice.joint.type = type;
  choice.reason = std::move(reason);
  choice.strength = strength;
  return choice;
}

/// Outwards to whole twentieths, so that a zone says a round size.
double outwards(double value, double way) {
  return way * std::ceil(way * value * 20 - 1e-6) / 20;
}

JointZone roundedOutwards(const JointZone& zone) {
  return {outwards(zone.radiusMm, 1), outwards(zone.fromMm, -1), outwards(zone.toMm, 1)};
}

std::vector<JointZone> zonesOf(const AxisFit& fit) {
  std::vector<JointZone> zones;
  for (const FitStretch& s : fit.stretches) {
    const JointZone zone{std::max(s.holeRadiusMm, s.pinRadiusMm) + kZoneRoundMm,
                         std::max(s.holeFromMm, s.pinFromMm - kZonePastPinMm) - kZoneBeyondMm,
                         std::min(s.holeToMm, s.pinToMm + kZonePastPinMm) + kZoneBeyondMm};
    if (!zones.empty() && zone.fromMm <= zones.back().toMm) {
      zones.back().radiusMm = std::max(zones.back().radiusMm, zone.radiusMm);
      zones.back().toMm = std::max(zones.back().toMm, zone.toMm);
    } else {
      zones.push_back(zone);
    }
  }
  for (JointZone& zone : zones) zone = roundedOutwards(zone);
  return zones;
}

/// Down to whole twentieths: what the check will find, and no more.
std::optional<double> fitFor(double leastGapMm) {
  const double fit = std::floor(2 * leastGapMm * 20 + 1e-6) / 20;
  if (fit <= 0) return std::nullopt;
  return fit;
}

/// A socket may grip its ball, so that the joint stays where it is put: then so much overlap is meant.
std::optional<double> ballFitFor(double leastGapMm) {
  constexpr double kMostGripMm = 0.3;  // On the diameter; more is a fault.
  const double fit = std::floor(2 * leastGapMm * 20 + 1e-6) / 20;
  return fit < -kMostGripMm ? std::nullopt : std::optional(fit);
}

/// How far the pin could go along its axis and stay as far in all its holes.
double travelOf(const AxisFit& fit) {
  double ahead = 1e9, behind = 1e9;
  for (const FitStretch& s : fit.stretches) {
    ahead = std::min(ahead, std::max({0.0, s.holeToMm - s.pinToMm, s.holeFromMm - s.pinFromMm}));
    behind = std::min(behind, std::max({0.0, s.pinFromMm - s.holeFromMm, s.pinToMm - s.holeToMm}));
  }
  return std::max(ahead, behind);
}

/// Two or more steps of different radii that stay in each other on a way of some length.
bool isTelescope(const AxisFit& fit) {
  double thinnest = fit.stretches.front().pinRadiusMm, thickest = thinnest;
  for (const FitStretch& s : fit.stretches) {
    thinnest = std::min(thinnest, s.pinRadiusMm);
    thickest = std::max(thickest, s.pinRadiusMm);
  }
  return thickest - thinnest > 0.05 && travelOf(fit) >= kLeastTravel * 2 * thinnest;
}

void setAxis(JointChoice& choice, const AxisFit& fit) {
  choice.joint.through = fit.through;
  choice.joint.along = fit.along;
}

JointChoice hingeBy(const AxisFit& fit, double strength) {
  JointChoice choice = choiceOf(JointType::hinge, rig::pinInHole(fit), strength);
  setAxis(choice, fit);
  choice.joint.zones = zonesOf(fit);
  choice.joint.fitMm = fitFor(fit.leastGapMm());
  return choice;
}

std::optional<Vector3d> awayFromStop(const AxisFit& fit, const std::optional<Facing>& facing) {
  return facing ? facing->awayFromStop(fit.along) : std::nullopt;
}

JointChoice slideBy(const AxisFit& fit, const std::optional<Facing>& facing, double strength) {
  JointChoice choice = choiceOf(JointType::slide, rig::plugInBore(fit), strength);
  setAxis(choice, fit);
  if (const auto away = awayFromStop(fit, facing)) {
    choice.reason += rig::stop();
    choice.joint.along = *away;
  }
  return choice;
}

void addByAxis(const AxisFit& fit, const std::optional<Facing>& facing, double requiredGapMm,
               JointEdge& edge) {
  // Longer is surer, and so is nearer to one axis.
  const double quality = 0.02 * std::min(1.0, fit.lengthMm() / 5) - 0.2 * fit.offAxisMm;
  const JointChoice fixed = choiceOf(JointType::fixed, rig::pressed(fit), 0.4);
  if (fit.gripped) {
    edge.choices = {choiceOf(JointType::fixed, rig::gripped(fit), 0.6), hingeBy(fit, 0.5),
                    slideBy(fit, facing, 0.3)};
  } else if (fit.clearanceMm() < requiredGapMm) {
    edge.choices = {choiceOf(JointType::fixed, rig::pressed(fit), 0.93 + quality),
                    hingeBy(fit, 0.5), slideBy(fit, facing, 0.3)};
  } else if (isTelescope(fit)) {
    edge.choices = {slideBy(fit, facing, 0.8 + quality), hingeBy(fit, 0.6), fixed};
  } else {
    edge.choices = {hingeBy(fit, 0.9 + quality), slideBy(fit, facing, 0.5), fixed};
  }
  edge.byPin = true;
  edge.atStop = awayFromStop(fit, facing).has_value();
}

void addBySocket(const SocketFit& fit, JointEdge& edge) {
  JointChoice ball =
      choiceOf(JointType::ball, rig::ballInSocket(fit), 0.95 - 0.2 * fit.offCentreMm);
  ball.joint.through = fit.centre;
  const double radiusMm = std::max(fit.socketRadiusMm, fit.ballRadiusMm) + kZoneRoundMm;
  ball.joint.zones = {roundedOutwards({radiusMm, 0, 0})};
  ball.joint.fitMm = ballFitFor(fit.leastGapMm);
  edge.choices = {ball, choiceOf(JointType::fixed, ball.reason, 0.3)};
}

void addByFaces(const Facing& facing, double requiredGapMm, JointEdge& edge) {
  if (facing.slide) {
    const double strength = 0.7 + 0.1 * std::min(1.0, facing.areaMm2 / 200);
    JointChoice slide = choiceOf(JointType::slide, rig::guided(facing), strength);
    slide.joint.along = *facing.slide;
    edge.choices = {slide, choiceOf(JointType::fixed, rig::held(facing), 0.4)};
    edge.atStop = facing.hasStop;
  } else if (facing.held) {
    const double strength = facing.leastGapMm < requiredGapMm ? 0.6 : 0.45;
    edge.choices = {choiceOf(JointType::fixed, rig::held(facing), strength)};
  } else if (facing.leastGapMm < kTouchingMm && facing.areaMm2 > kLeastAreaMm2) {
    edge.choices = {choiceOf(JointType::fixed, rig::touching(facing), 0.25)};
  }
}

/// The fit that holds the two best.
const AxisFit* bestOf(const std::vector<AxisFit>& fits) {
  const AxisFit* best = nullptr;
  for (const AxisFit& fit : fits) {
    if (!best || fit.lengthMm() > best->lengthMm()) best = &fit;
  }
  return best;
}

bool boxesNear(const RigPart& a, const RigPart& b) {
  if (!a.shape || !b.shape) return false;
  const Eigen::AlignedBox3d inA = b.shape->bounds.transformed(a.X_WP.inverse() * b.X_WP);
  return inA.exteriorDistance(a.shape->bounds) < kFacingMm;
}

std::optional<JointEdge> edgeBetween(const std::vector<RigPart>& parts, std::size_t a,
                                     std::size_t b, double requiredGapMm) {
  if (!boxesNear(parts[a], parts[b])) return std::nullopt;
  JointEdge edge;
  edge.a = a;
  edge.b = b;
  const auto sockets = socketFitsBetween(parts, a, b);
  const auto facing = facingBetween(parts[a], parts[b]);
  const auto fits = axisFitsBetween(parts, a, b);
  if (sockets.size() == 1) {
    addBySocket(sockets.front(), edge);
  } else if (const AxisFit* best = bestOf(fits)) {
    addByAxis(*best, facing, requiredGapMm, edge);
  } else if (facing) {
    addByFaces(*facing, requiredGapMm, edge);
  }
  if (edge.choices.empty()) return std::nullopt;
  for (JointChoice& choice : edge.choices) {
    choice.joint.parent = PartId{a};
    choice.joint.child = PartId{b};
  }
  return edge;
}

}  // namespace

JointChoice turnedRound(JointChoice choice) {
  const PartId parent = *choice.joint.parent;
  choice.joint.parent = choice.joint.child;
  choice.joint.child = parent;
  if (choice.joint.type == JointType::slide) choice.joint.along = -choice.joint.along;
  return choice;
}

std::vector<JointEdge> jointEdgesOf(const std::vector<RigPart>& parts, double requiredGapMm,
                                    unsigned threads, const WorkMonitor* monitor) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t a = 0; a < parts.size(); ++a) {
    for (std::size_t b = a + 1; b < parts.size(); ++b) pairs.emplace_back(a, b);
  }
  std::vector<std::optional<JointEdge>> found(pairs.size());
  parallelFor(pairs.size(), threads, [&](std::size_t i) {
    if (isCancelled(monitor)) return;
    found[i] = edgeBetween(parts, pairs[i].first, pairs[i].second, requiredGapMm);
  });
  std::vector<JointEdge> edges;
  for (auto& edge : found) {
    if (edge) edges.push_back(std::move(*edge));
  }
  return edges;
}

}  // namespace swingroom
