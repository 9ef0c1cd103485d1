#include "core/print/joints/fit_press.h"

namespace swingroom {
namespace {

PressMaterial pressMaterialOf(const PartPrint& print) {
  return {print.material.modulusMPa.value, print.material.poisson.value};
}

}  // namespace

PressFit pressOf(const PrintSubject& subject, const FitFigure& fit, double interferenceMm) {
  PressFit press;
  press.diameterMm = fit.pinMm;
  press.hubMm = fit.hubMm;
  press.lengthMm = fit.lengthMm;
  press.interferenceMm = interferenceMm;
  press.hub = pressMaterialOf(subject.print(fit.holePart));
  press.pin = pressMaterialOf(subject.print(fit.pinPart));
  return press;
}

}  // namespace swingroom
