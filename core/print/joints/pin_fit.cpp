#include "core/print/joints/pin_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

constexpr double kPinOffAxisMm = 0.3;  // Of a hinge's pin from the axis in the file.
constexpr double kPinCosAlong = 0.999;
constexpr int kHubTurn = 24;  // Directions in which the wall is looked at.
constexpr double kHubOutMm = 1e-3;

bool liesOn(const AxisFit& fit, const JointStanding& standing, PinAxis axis) {
  if (axis == PinAxis::any) return true;
  const Vector3d& along = standing.along_W;
  if (std::abs(fit.along.dot(along)) < kPinCosAlong) return false;
  if (axis == PinAxis::parallel) return true;
  const Vector3d w = fit.through - standing.through_W;
  return (w - w.dot(along) * along).norm() < kPinOffAxisMm;
}

/// Where it is thinnest along a stretch, and most open.
HoleWall wallAlong(const RigPart& part, const AxisFit& fit, const FitStretch& stretch) {
  HoleWall all;
  for (const double share : {0.25, 0.5, 0.75}) {
    const double at = stretch.fromMm + share * (stretch.toMm - stretch.fromMm);
    const HoleWall wall =
        holeWallOf(part, fit.through + at * fit.along, fit.along, stretch.holeRadiusMm);
    if (all.outerMm == 0 || (wall.outerMm > 0 && wall.outerMm < all.outerMm))
      all.outerMm = wall.outerMm;
    all.open = std::max(all.open, wall.open);
  }
  return all;
}

void addAlong(const AxisFit& fit, FitFigure& joint) {
  const double at = (fit.through - joint.at_W).dot(joint.along_W);
  const double sign = fit.along.dot(joint.along_W) < 0 ? -1 : 1;
  for (const FitStretch& s : fit.stretches) {
    const double a = at + sign * s.fromMm, b = at + sign * s.toMm;
    // A fit's facets may be so fine that the fitted circle is the smaller figure.
    const double least = std::min(2 * s.leastGapMm, s.clearanceMm());
    joint.along.push_back({std::min(a, b),
                           std::max(a, b),
                           2 * s.pinRadiusMm,
                           2 * s.holeRadiusMm,
                           {least, s.clearanceMm()}});
  }
}

}  // namespace

std::vector<AxisFit> pinFitsOf(const std::vector<RigPart>& parts, const JointStanding& standing,
                               PinAxis axis) {
  std::vector<AxisFit> found;
  for (const PartId child : standing.childSide) {
    for (const PartId parent : standing.parentSide) {
      for (AxisFit& fit : axisFitsBetween(parts, child.index, parent.index)) {
        if (liesOn(fit, standing, axis)) found.push_back(std::move(fit));
      }
    }
    // Fits of the joint's own child stand for those of what is fixed to it.
    if (!found.empty()) break;
  }
  return found;
}

HoleWall holeWallOf(const RigPart& part, const Vector3d& centre_W, const Vector3d& along_W,
                    double holeRadiusMm) {
  const Pose X_PW = part.X_WP.inverse();
  const Vector3d centre = X_PW * centre_W;
  const Vector3d z = X_PW.linear() * along_W, x = z.unitOrthogonal(), y = z.cross(x);
  double thinnest = std::numeric_limits<double>::infinity();
  int open = 0;
  for (int i = 0; i < kHubTurn; ++i) {
    // Between the directions in which the corners of round meshes like to be.
    const double angle = 2 * kPi * (i + 0.37) / kHubTurn;
    const Vector3d way = std::cos(angle) * x + std::sin(angle) * y;
    const auto wall = firstHit(part.shape->tree, centre, way, 1.3 * holeRadiusMm);
    open += !wall;
    if (!wall) continue;
    const auto out = firstHit(part.shape->tree, centre + (wall->distanceMm + kHubOutMm) * way, way);
    if (out) thinnest = std::min(thinnest, out->distanceMm + kHubOutMm);
  }
  return {std::isfinite(thinnest) ? 2 * (holeRadiusMm + thinnest) : 0,
          static_cast<double>(open) / kHubTurn};
}

void describePin(const PrintSubject& subject, const std::vector<RigPart>& parts,
                 const std::vector<AxisFit>& fits, FitFigure& joint) {
  const AxisFit& tightest = *std::min_element(
      fits.begin(), fits.end(),
      [](const AxisFit& a, const AxisFit& b) { return a.leastGapMm() < b.leastGapMm(); });
  joint.shape = FitShape::pin;
  joint.pinPart = {tightest.pinPart};
  joint.holePart = {tightest.holePart};
  joint.at_W = tightest.through;
  joint.along_W = tightest.along;
  HoleWall thinnest;
  for (const AxisFit& fit : fits) {
    const Vector3d w = fit.through - joint.at_W;
    const bool same = std::abs(fit.along.dot(joint.along_W)) > kPinCosAlong &&
                      (w - w.dot(joint.along_W) * joint.along_W).norm() < kPinOffAxisMm;
    if (!same) continue;  // Another pin of the same part: the tightest one tells.
    addAlong(fit, joint);
    joint.offAxisMm = std::max(joint.offAxisMm, fit.offAxisMm);
    joint.gripped |= fit.gripped;
    for (const FitStretch& stretch : fit.stretches) {
      const HoleWall wall = wallAlong(parts[fit.holePart], fit, stretch);
      if (thinnest.outerMm == 0 || (wall.outerMm > 0 && wall.outerMm < thinnest.outerMm))
        thinnest.outerMm = wall.outerMm;
      thinnest.open = std::max(thinnest.open, wall.open);
    }
  }
  joint.hubMm = thinnest.outerMm;
  joint.openShare = thinnest.open;
  std::sort(joint.along.begin(), joint.along.end(),
            [](const FitAlong& a, const FitAlong& b) { return a.fromMm < b.fromMm; });
  joint.clearanceMm = joint.along.front().clearanceMm;
  double least = std::numeric_limits<double>::infinity(), end = joint.along.front().toMm;
  for (const FitAlong& along : joint.along) {
    joint.lengthMm += along.toMm - along.fromMm;
    end = std::max(end, along.toMm);
    joint.clearanceMm.leastMm = std::min(joint.clearanceMm.leastMm, along.clearanceMm.leastMm);
    joint.clearanceMm.mostMm = std::max(joint.clearanceMm.mostMm, along.clearanceMm.mostMm);
    if (along.clearanceMm.leastMm >= least) continue;
    least = along.clearanceMm.leastMm;
    joint.pinMm = along.pinMm;
    joint.holeMm = along.holeMm;
  }
  joint.spanMm = end - joint.along.front().fromMm;
  joint.isoReference = nearestFit(joint.clearanceMm.leastMm, joint.pinMm);
  describePrinted(roundGrowthMm(subject, joint.pinPart, joint.holePart),
                  fitScatterMm(subject, joint.pinPart, joint.holePart), joint);
}

void describePrinted(double growthMm, double scatterMm, FitFigure& joint) {
  joint.printedMm = {joint.clearanceMm.leastMm - growthMm, joint.clearanceMm.mostMm - growthMm};
  joint.scatterMm = scatterMm;
  joint.modelledClass = classOf(joint.clearanceMm.leastMm, joint.clearanceMm.mostMm);
  joint.printedClass = classOf(joint.bandMm().leastMm, joint.bandMm().mostMm);
}

double roundGrowthMm(const PrintSubject& subject, PartId pin, PartId hole) {
  const PartPrint &ofPin = subject.print(pin), &ofHole = subject.print(hole);
  return (ofPin.printed ? 2 * ofPin.process.growthOutsideMm.value : 0) +
         (ofHole.printed ? ofHole.process.holeShrinkMm.value : 0);
}

double fitScatterMm(const PrintSubject& subject, PartId a, PartId b) {
  const PartPrint &ofA = subject.print(a), &ofB = subject.print(b);
  return (ofA.printed ? ofA.process.scatterMm.value : 0) +
         (ofB.printed ? ofB.process.scatterMm.value : 0);
}

}  // namespace swingroom
