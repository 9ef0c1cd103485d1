#include "core/print/joints/joint_play.h"

#include <algorithm>
#include <cmath>

namespace swingroom {
namespace {

/// The least root in [0, to] of a function that falls from above 0; `to` if it stays above.
template <typename Function>
double playRoot(const Function& f, double to) {
  // The functions are concave or fall throughout up to their root: one change of sign.
  double low = 0, high = to;
  if (f(high) > 0) return to;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (f(middle) > 0 ? low : high) = middle;
  }
  return (low + high) / 2;
}

/// @param lessMm  What the clearances lack of those modelled, on the diameter and along the axis.
PlayFigures figuresOf(const FitFigure& fit, double lessMm, double lessAxialMm) {
  PlayFigures play;
  const double clearance = std::max(
      0.0,
      (fit.shape == FitShape::guide ? fit.clearanceMm.mostMm : fit.clearanceMm.leastMm) - lessMm);
  play.radialMm = clearance / 2;
  const double axial = fit.axial ? std::max(0.0, fit.axial->apartMm - lessAxialMm) : 0;
  if (fit.axial) play.axialMm = axial / 2;
  if (fit.shape == FitShape::guide && fit.spanMm > 0) {
    play.tiltRad = std::atan2(clearance, fit.spanMm);
  } else if (fit.shape == FitShape::pin && clearance > 0 && fit.spanMm > 0) {
    play.tiltRad = jamAngleRad(fit.pinMm, fit.pinMm + clearance, fit.spanMm);
    if (fit.axial && fit.axial->lugMm > 0) {
      const double jamRad = play.tiltRad;
      play.tiltRad = std::min(
          jamRad, cheekAngleRad(fit.axial->lugMm, fit.axial->lugMm + axial, fit.axial->radiusMm));
      if (jamRad > 0) play.tiltedRadialMm = play.radialMm * (1 - play.tiltRad / jamRad);
    }
  }
  return play;
}

/// The middle of what fits, brought to where everything stands at 0. A ball turns anyway.
std::optional<Vector3d> middleOfFit(const PrintSubject& subject, const FitFigure& fit) {
  if (fit.shape != FitShape::pin && fit.shape != FitShape::guide) return std::nullopt;
  Vector3d middle_W = fit.at_W;
  if (!fit.along.empty()) {
    middle_W += (fit.along.front().fromMm + fit.along.back().toMm) / 2 * fit.along_W;
  }
  if (!fit.mode) return middle_W;
  const Configuration& standing = subject.modes->at(fit.mode->index).configuration;
  const PartId child = subject.assembly->joint(fit.joint).child;
  return displacementsOf(*subject.assembly, standing)[child.index].inverse() * middle_W;
}

JointPlay writtenPlay(const PrintSubject& subject, JointId id, double value) {
  JointPlay play;
  play.joint = id;
  play.source = PlaySource::written;
  const JointType type = subject.assembly->joint(id).type;
  const bool turns = type == JointType::hinge || type == JointType::ball;
  (turns ? play.asModelled.tiltRad : play.asModelled.radialMm) = value;
  play.asPrinted = play.loosest = play.asModelled;
  play.reason = "given in the file";
  return play;
}

JointPlay fittedPlay(const FitFigure& fit) {
  JointPlay play;
  play.joint = fit.joint;
  if (fit.shape == FitShape::none) {
    play.reason = fit.reason;
    return play;
  }
  play.source = PlaySource::fit;
  const double growth = fit.clearanceMm.leastMm - fit.printedMm.leastMm;
  const double axialGrowth = fit.axial ? fit.axial->apartMm - fit.axial->printedMm : 0;
  play.asModelled = figuresOf(fit, 0, 0);
  play.asPrinted = figuresOf(fit, growth, axialGrowth);
  play.loosest = figuresOf(fit, growth - fit.scatterMm, axialGrowth - fit.scatterMm);
  play.reason = fit.shape == FitShape::guide  ? "from the faces that guide it"
                : fit.shape == FitShape::ball ? "from the ball and its socket"
                                              : "from the pin and its hole";
  return play;
}

}  // namespace

double jamAngleRad(double pinMm, double holeMm, double lengthMm) {
  if (holeMm <= pinMm) return 0;
  return playRoot([&](double x) { return holeMm - pinMm / std::cos(x) - lengthMm * std::tan(x); },
                  kPi / 2 - 1e-9);
}

double cheekAngleRad(double lugMm, double apartMm, double radiusMm) {
  if (apartMm <= lugMm) return 0;
  // w cos x + 2 r sin x rises up to its greatest at atan(2 r / w).
  const double steepest = std::atan2(2 * radiusMm, lugMm);
  if (std::hypot(lugMm, 2 * radiusMm) <= apartMm) return kPi / 2;
  return playRoot(
      [&](double x) { return apartMm - lugMm * std::cos(x) - 2 * radiusMm * std::sin(x); },
      steepest);
}

std::vector<JointPlay> jointPlays(const PrintSubject& subject, const FitsResult& fits) {
  std::vector<JointPlay> plays;
  for (const FitFigure& fit : fits.fits) {
    const double written =
        fit.joint.index < subject.play.size() ? subject.play[fit.joint.index] : std::nan("");
    plays.push_back(std::isnan(written) ? fittedPlay(fit)
                                        : writtenPlay(subject, fit.joint, written));
    if (std::isnan(written)) plays.back().middle_W = middleOfFit(subject, fit);
  }
  return plays;
}

}  // namespace swingroom
