#include "core/rigging/rig_words.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace swingroom::rig {
namespace {

std::string digits(double value, int places) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", places, value);
  return text;
}

/// Rounded up: it is at most that.
std::string within(double mm) {
  return digits(std::max(0.001, std::ceil(mm * 1000 - 1e-6) / 1000), 3) + " mm";
}

/// The tightest stretch stands for all.
const FitStretch& tightest(const AxisFit& fit) {
  return *std::min_element(
      fit.stretches.begin(), fit.stretches.end(),
      [](const FitStretch& a, const FitStretch& b) { return a.clearanceMm() < b.clearanceMm(); });
}

std::string sizesOf(const AxisFit& fit) {
  const FitStretch& s = tightest(fit);
  std::string text =
      "pin " + sized(2 * s.pinRadiusMm) + " mm in hole " + sized(2 * s.holeRadiusMm) + " mm";
  if (fit.stretches.size() > 1) {
    text += " (" + std::to_string(fit.stretches.size()) + " places)";
  }
  return text + ", on one axis within " + within(fit.offAxisMm);
}

std::string clearance(double mm) {
  if (mm < 0) return "; " + sized(-mm) + " too thick on the diameter";
  return "; clearance " + sized(mm) + " on the diameter";
}

std::string gapOf(const Facing& facing) {
  if (facing.leastGapMm < 0.005) return "they touch";
  return "least gap about " + sized(facing.leastGapMm);
}

}  // namespace

std::string sized(double mm) {
  return digits(mm, 2);
}

std::string pinInHole(const AxisFit& fit) {
  return sizesOf(fit) + clearance(fit.clearanceMm());
}

std::string plugInBore(const AxisFit& fit) {
  return sizesOf(fit) + clearance(fit.clearanceMm()) + ", along its axis";
}

std::string pressed(const AxisFit& fit) {
  return sizesOf(fit) + clearance(fit.clearanceMm()) + ": too tight to turn";
}

std::string gripped(const AxisFit& fit) {
  return sizesOf(fit) + clearance(fit.clearanceMm()) + ", and gripped in it";
}

std::string ballInSocket(const SocketFit& fit) {
  return "ball " + sized(2 * fit.ballRadiusMm) + " mm in socket " + sized(2 * fit.socketRadiusMm) +
         " mm, on one centre within " + within(fit.offCentreMm) + clearance(fit.clearanceMm());
}

std::string guided(const Facing& facing) {
  const std::string stopped = facing.hasStop ? stop() : "";
  return "faces guide it all round along one direction (" + digits(facing.areaMm2, 0) + " mm², " +
         gapOf(facing) + ")" + stopped;
}

std::string held(const Facing& facing) {
  return "faces hold it in more than two directions (" + digits(facing.areaMm2, 0) + " mm², " +
         gapOf(facing) + ")";
}

std::string touching(const Facing& facing) {
  return "only that they meet (" + digits(facing.areaMm2, 0) + " mm², " + gapOf(facing) +
         "): nothing tells how it moves";
}

std::string stop() {
  return "; it stands at a stop and slides away from it";
}

}  // namespace swingroom::rig
