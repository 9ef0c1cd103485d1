#include "core/print/joints/joint_friction.h"

#include <algorithm>
#include <cmath>

#include "core/base/transform.h"
#include "core/print/joints/fit_press.h"

namespace swingroom {
namespace {

class FrictionFinder {
 public:
  FrictionFinder(const PrintSubject& subject, const FitFigure& fit)
      : subject_(subject),
        fit_(fit),
        pin_(subject.print(fit.pinPart)),
        hole_(subject.print(fit.holePart)) {
    friction_.joint = fit.joint;
    low_ = std::min(pin_.material.frictionLow.value, hole_.material.frictionLow.value);
    high_ = std::max(pin_.material.frictionHigh.value, hole_.material.frictionHigh.value);
  }

  JointFriction find() {
    if (fit_.shape == FitShape::none || fit_.shape == FitShape::guide ||
        fit_.duty == FitDuty::slides) {
      friction_.model = fit_.shape == FitShape::none ? FrictionModel::unknown : FrictionModel::none;
      friction_.reason = fit_.shape == FitShape::none ? fit_.reason : "nothing turns";
      return friction_;
    }
    friction_.armLowMm = low_ * fit_.pinMm / 2;
    friction_.armHighMm = high_ * fit_.pinMm / 2;
    const double tightest = -(fit_.printedMm.leastMm - fit_.scatterMm);
    if (fit_.hubMm > fit_.pinMm) friction_.tightestNmm = torqueAt(tightest, high_);
    if (fit_.axial && fit_.axial->printedMm < 0 && fit_.printedMm.leastMm >= 0) {
      clamped();
    } else if (fit_.printedMm.leastMm >= 0) {
      friction_.model = FrictionModel::none;
      friction_.reason = "clearance as printed: only what it carries rubs";
    } else {
      interfering();
    }
    return friction_;
  }

 private:
  void interfering() {
    const bool isBall = fit_.shape == FitShape::ball;
    friction_.model = isBall ? FrictionModel::ball : FrictionModel::press;
    const double most = -fit_.printedMm.leastMm, least = std::max(0.0, -fit_.printedMm.mostMm);
    if (fit_.hubMm <= fit_.pinMm) {
      friction_.model = FrictionModel::unknown;
      friction_.reason = "no wall was found round it";
      return;
    }
    friction_.torqueHighNmm = torqueAt(most, high_);
    friction_.torqueLowNmm = isOpen() ? 0 : torqueAt(least, low_);
    friction_.pressureMPa = pressMPa(pressAt(most));
    friction_.hubStressMPa = hubTensionMPa(pressAt(most));
    friction_.reason = isBall ? "a thick ring round the ball" : "a thick ring on the pin";
    if (isOpen()) friction_.reason += ", which is open: an upper bound";
    friction_.reason += "; plastics creep: less later";
  }

  void clamped() {
    friction_.model = FrictionModel::clamp;
    const double modulus =
        std::min(pin_.material.modulusMPa.value, hole_.material.modulusMPa.value);
    const ClampTorque torque =
        clampTorque(*fit_.axial, -fit_.axial->printedMm, modulus, low_, high_);
    friction_.torqueLowNmm = torque.bendingNmm;
    friction_.torqueHighNmm = torque.rigidNmm;
    friction_.tightestNmm = std::max(
        friction_.tightestNmm,
        clampTorque(*fit_.axial, fit_.scatterMm - fit_.axial->printedMm, modulus, low_, high_)
            .rigidNmm);
    friction_.reason = "its cheeks squeeze it, from bending to stiff; plastics creep: less later";
  }

  /// The hole's wall does not go all round.
  bool isOpen() const {
    return fit_.openShare > 0 || (fit_.lip && fit_.lip->slotted() && fit_.lip->lipMm > 0);
  }

  PressFit pressAt(double interferenceMm) const { return pressOf(subject_, fit_, interferenceMm); }

  double torqueAt(double interferenceMm, double friction) const {
    if (interferenceMm <= 0) return 0;
    if (fit_.shape == FitShape::pin) return pressTorqueNmm(pressAt(interferenceMm), friction);
    // The band that a ring can press: from the equator as far back as the lip reaches forward.
    const double lip = fit_.lip ? fit_.lip->lipMm : 0;
    return ballBandTorqueNmm(pressMPa(pressAt(interferenceMm)), friction, fit_.pinMm / 2, -lip,
                             lip);
  }

  const PrintSubject& subject_;
  const FitFigure& fit_;
  const PartPrint &pin_, &hole_;
  double low_ = 0, high_ = 0;
  JointFriction friction_;
};

}  // namespace

ClampTorque clampTorque(const AxialStop& stop, double overlapMm, double modulusMPa,
                        double frictionLow, double frictionHigh) {
  const double r = stop.radiusMm, inner = std::min(stop.innerMm, r);
  if (overlapMm <= 0 || r <= inner || stop.cheekMm <= 0) return {};
  // 3 E I y / l^3 with I = 2 r t^3 / 12, l = 2 r and y half the overlap.
  const double bending = modulusMPa * std::pow(stop.cheekMm, 3) * overlapMm / (32 * r * r);
  const double rigid =
      modulusMPa * overlapMm / (stop.lugMm + 2 * stop.cheekMm) * kPi * (r * r - inner * inner);
  return {2 * wornDiscTorqueNmm(std::min(bending, rigid), frictionLow, r, inner),
          2 * discTorqueNmm(rigid, frictionHigh, r, inner)};
}

std::vector<JointFriction> jointFrictions(const PrintSubject& subject, const FitsResult& fits) {
  std::vector<JointFriction> frictions;
  for (const FitFigure& fit : fits.fits) frictions.push_back(FrictionFinder(subject, fit).find());
  return frictions;
}

}  // namespace swingroom
