#include "core/print/joints/snap_hook.h"

#include <cmath>
#include <limits>

namespace swingroom {

// The beam's end under a load P: y = P/E * integral of x^2 / I(x) over the length, x from the load;
// strain at the root e = P l h / (2 E I_root). C = y h / (e l^2) = 2 * integral of u^2 I_root /
// I(u).
double hookCoefficient(HookShape shape) {
  switch (shape) {
    case HookShape::constant:
      return 2.0 / 3;
    case HookShape::taperedHeight:
      // I ~ ((1 + u) / 2)^3: 2 * 8 * integral of u^2 / (1 + u)^3 over 0 to 1.
      return 16 * (std::log(2.0) + 1 - 1.0 / 8 - 3.0 / 2);
    case HookShape::taperedBreadth:
      // I ~ (1 + 3 u) / 4: 2 * 4 * integral of u^2 / (1 + 3 u) over 0 to 1.
      return 8 * (1.0 / 6 - 1.0 / 9 + std::log(4.0) / 27);
  }
  return 0;
}

double hookStrain(const SnapHook& hook, double deflectionMm) {
  return deflectionMm * hook.thicknessMm /
         (hookCoefficient(hook.shape) * hook.lengthMm * hook.lengthMm);
}

double hookDeflectionMm(const SnapHook& hook, double strain) {
  return hookCoefficient(hook.shape) * strain * hook.lengthMm * hook.lengthMm / hook.thicknessMm;
}

double hookThicknessMm(const SnapHook& hook, double deflectionMm, double strain) {
  return hookCoefficient(hook.shape) * strain * hook.lengthMm * hook.lengthMm / deflectionMm;
}

double hookForceN(const SnapHook& hook, double strain, double modulusMPa) {
  return hook.widthMm * hook.thicknessMm * hook.thicknessMm / 6 * modulusMPa * strain /
         hook.lengthMm;
}

double slopeFactor(double friction, double angleRad) {
  const double slope = std::tan(angleRad);
  const double left = 1 - friction * slope;
  // Past upright the slope turns round; a face at 90 degrees holds whatever the friction.
  if (left <= 0 || slope < 0) return std::numeric_limits<double>::infinity();
  return (friction + slope) / left;
}

double lockingAngleRad(double friction) {
  return std::atan2(1.0, friction);
}

}  // namespace swingroom
