#include "core/print/joints/snap_case.h"

namespace swingroom {
namespace {

SnapForces along(double acrossN, const SnapFigures& figures) {
  const auto span = [&](double angleRad) {
    return FrictionSpan{acrossN * slopeFactor(figures.friction.low, angleRad),
                        acrossN * slopeFactor(figures.friction.high, angleRad)};
  };
  return {acrossN, span(figures.leadInRad), span(figures.returnRad)};
}

}  // namespace

SnapForces hookForces(const SnapHook& hook, double deflectionMm, const SnapFigures& figures) {
  return along(hookForceN(hook, hookStrain(hook, deflectionMm), figures.modulusMPa), figures);
}

SnapForces ringForces(const SnapRing& ring, double undercutMm, const SnapFigures& figures) {
  return along(ringForceN(ring, undercutMm, figures.modulusMPa, figures.poisson), figures);
}

PressHold pressHold(PressFit fit, const SnapFigures& figures) {
  fit.hub = fit.pin = {figures.modulusMPa, figures.poisson};
  const FrictionSpan& u = figures.friction;
  return {pressMPa(fit),
          hubStrain(fit),
          {pressForceN(fit, u.low), pressForceN(fit, u.high)},
          {pressTorqueNmm(fit, u.low), pressTorqueNmm(fit, u.high)}};
}

std::optional<double> permissibleStrain(const Material& material, bool often, bool acrossLayers) {
  if (material.soft) return std::nullopt;
  const double strain = often ? material.strainOften.value : material.strainOnce.value;
  return acrossLayers ? strain / 2 : strain;
}

}  // namespace swingroom
