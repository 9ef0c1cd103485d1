#include "core/print/joints/snap_ring.h"

#include <cmath>
#include <limits>

namespace swingroom {

double ringStrain(double undercutMm, double diameterMm) {
  return undercutMm / diameterMm;
}

double ringStiffness(const SnapRing& ring, double poisson) {
  if (ring.gives == RingGives::shaft && ring.otherMm <= 0) {
    return std::numeric_limits<double>::infinity();  // A solid shaft does not give way.
  }
  const double w = ring.gives == RingGives::hub ? ring.otherMm / ring.diameterMm
                                                : ring.diameterMm / ring.otherMm;
  const double sign = ring.gives == RingGives::hub ? 1 : -1;
  return 0.62 * std::sqrt(w - 1) / ((w * w + 1) / (w * w - 1) + sign * poisson);
}

double ringForceN(const SnapRing& ring, double undercutMm, double modulusMPa, double poisson) {
  return (ring.remote ? 3 : 1) * undercutMm * ring.diameterMm * modulusMPa *
         ringStiffness(ring, poisson);
}

double socketOpeningMm(double ballMm, double lipMm) {
  return std::sqrt(std::fmax(0, ballMm * ballMm - 4 * lipMm * lipMm));
}

double openingStrain(double ballMm, double openingMm) {
  if (openingMm >= ballMm) return 0;
  return (ballMm - openingMm) / openingMm;
}

}  // namespace swingroom
