#include "core/print/joints/press_fit.h"

#include <algorithm>
#include <cmath>

#include "core/base/transform.h"

namespace swingroom {
namespace {

double pressSquared(double x) {
  return x * x;
}

double pressHubShape(const PressFit& fit) {
  const double o = pressSquared(fit.hubMm), d = pressSquared(fit.diameterMm);
  return (o + d) / (o - d);
}

}  // namespace

double pressMPa(const PressFit& fit) {
  if (fit.interferenceMm <= 0) return 0;
  const double d = pressSquared(fit.diameterMm), i = pressSquared(fit.boreMm);
  const double give = fit.diameterMm / fit.hub.modulusMPa * (pressHubShape(fit) + fit.hub.poisson) +
                      fit.diameterMm / fit.pin.modulusMPa * ((d + i) / (d - i) - fit.pin.poisson);
  return fit.interferenceMm / give;
}

double hubTensionMPa(const PressFit& fit) {
  return pressMPa(fit) * pressHubShape(fit);
}

double hubStrain(const PressFit& fit) {
  return pressMPa(fit) / fit.hub.modulusMPa * (pressHubShape(fit) + fit.hub.poisson);
}

double pressForceN(const PressFit& fit, double friction) {
  return kPi * fit.diameterMm * fit.lengthMm * pressMPa(fit) * friction;
}

double pressTorqueNmm(const PressFit& fit, double friction) {
  return pressForceN(fit, friction) * fit.diameterMm / 2;
}

double discTorqueNmm(double forceN, double friction, double outerMm, double innerMm) {
  return 2.0 / 3 * friction * forceN * (std::pow(outerMm, 3) - std::pow(innerMm, 3)) /
         (pressSquared(outerMm) - pressSquared(innerMm));
}

double wornDiscTorqueNmm(double forceN, double friction, double outerMm, double innerMm) {
  return friction * forceN * (outerMm + innerMm) / 2;
}

double ballBandTorqueNmm(double pressureMPa, double friction, double radiusMm, double fromMm,
                         double toMm) {
  const auto integral = [&](double z) {
    z = std::clamp(z, -radiusMm, radiusMm);
    return (z * std::sqrt(pressSquared(radiusMm) - pressSquared(z)) +
            pressSquared(radiusMm) * std::asin(z / radiusMm)) /
           2;
  };
  return friction * pressureMPa * 2 * kPi * radiusMm * (integral(toMm) - integral(fromMm));
}

}  // namespace swingroom
