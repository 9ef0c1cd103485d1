#pragma once

namespace swingroom {

enum class HookShape {
  constant,        ///< One rectangular section.
  taperedHeight,   ///< Thickness falls to a half at the tip.
  taperedBreadth,  ///< Width falls to a quarter at the tip.
};

/// A cantilever hook: lengths in mm.
struct SnapHook {
  HookShape shape = HookShape::constant;
  double lengthMm = 0;
  double thicknessMm = 0;  ///< At the root, in the direction in which it bends.
  double widthMm = 0;      ///< At the root.
};

/// C of y = C e l^2 / h: closed forms of a slender elastic beam, 0.667, 1.090 and 0.855.
double hookCoefficient(HookShape shape);

/// Greatest strain at the root with the tip `deflectionMm` off, a fraction.
double hookStrain(const SnapHook& hook, double deflectionMm);
/// How far the tip may go for so much strain, mm.
double hookDeflectionMm(const SnapHook& hook, double strain);
/// The root's thickness that just bears it, mm. @param hook  Its thickness is not used.
double hookThicknessMm(const SnapHook& hook, double deflectionMm, double strain);
/// Force across the tip at so much strain at the root, N.
double hookForceN(const SnapHook& hook, double strain, double modulusMPa);

/// Force along over force across on a face at `angleRad` to the way: (u + tan a) / (1 - u tan a).
/// Infinite where it locks: u tan a >= 1. For mating the lead-in's angle, for release the return's.
double slopeFactor(double friction, double angleRad);
/// From this angle on nothing gets past, rad.
double lockingAngleRad(double friction);

}  // namespace swingroom
