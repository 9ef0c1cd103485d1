#include "core/print/joints/joint_friction.h"

#include <algorithm>
#include <cmath>

#include "core/print/joints/press_fit.h"

namespace swingroom {
namespace {

constexpr const char* kFrictionCreeps = "; plastics creep: less later";

PressMaterial pressMaterialOf(const PartPrint& print) {
  return {print.material.modulusMPa.value, print.material.poisson.value};
}

class FrictionFinder {
 public:
  FrictionFinder(const PrintSubject& subject, const JointFit& fit)
      : fit_(fit), pin_(subject.print(fit.pinPart)), hole_(subject.print(fit.holePart)) {
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
      friction_.model = FrictionModel::clamp;
      friction_.reason =
          "its cheeks squeeze it as printed, by how much force depends on how they bend: not "
          "counted";
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
    friction_.reason += kFrictionCreeps;
  }

  /// The hole's wall does not go all round.
  bool isOpen() const { return fit_.lip && fit_.lip->slotted() && fit_.lip->lipMm > 0; }

  PressFit pressAt(double interferenceMm) const {
    PressFit press;
    press.diameterMm = fit_.pinMm;
    press.hubMm = fit_.hubMm;
    press.lengthMm = fit_.lengthMm;
    press.interferenceMm = interferenceMm;
    press.hub = pressMaterialOf(hole_);
    press.pin = pressMaterialOf(pin_);
    return press;
  }

  double torqueAt(double interferenceMm, double friction) const {
    if (interferenceMm <= 0) return 0;
    if (fit_.shape == FitShape::pin) return pressTorqueNmm(pressAt(interferenceMm), friction);
    // The band that a ring can press: from the equator as far back as the lip reaches forward.
    const double lip = fit_.lip ? fit_.lip->lipMm : 0;
    return ballBandTorqueNmm(pressMPa(pressAt(interferenceMm)), friction, fit_.pinMm / 2, -lip,
                             lip);
  }

  const JointFit& fit_;
  const PartPrint &pin_, &hole_;
  double low_ = 0, high_ = 0;
  JointFriction friction_;
};

}  // namespace

std::vector<JointFriction> jointFrictions(const PrintSubject& subject, const FitsResult& fits) {
  std::vector<JointFriction> frictions;
  for (const JointFit& fit : fits.fits) frictions.push_back(FrictionFinder(subject, fit).find());
  return frictions;
}

}  // namespace swingroom
