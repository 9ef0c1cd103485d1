#pragma once

#include <optional>

#include "core/print/joints/press_fit.h"
#include "core/print/joints/snap_hook.h"
#include "core/print/joints/snap_ring.h"
#include "core/print/process/material.h"

namespace swingroom {

/// Between a low and a high friction. Infinite: it locks.
struct FrictionSpan {
  double low = 0, high = 0;

  bool operator==(const FrictionSpan&) const = default;
};

/// What a snap is asked with beside its shape. Both sides are of one material.
struct SnapFigures {
  double modulusMPa = 0, poisson = 0;
  FrictionSpan friction;
  double leadInRad = 0, returnRad = 0;  ///< Of the two faces, to the way along.
};

/// What a hook or a ring takes to be put in and out, N.
struct SnapForces {
  double acrossN = 0;  ///< Across the way.
  FrictionSpan matingN, releaseN;
};

SnapForces hookForces(const SnapHook& hook, double deflectionMm, const SnapFigures& figures);
/// Infinite throughout for a solid shaft that has to give way.
SnapForces ringForces(const SnapRing& ring, double undercutMm, const SnapFigures& figures);

/// What a press fit holds.
struct PressHold {
  double pressureMPa = 0, hubStrain = 0;
  FrictionSpan forceN, torqueNmm;
};
/// @param fit  Its materials are not used: both are of `figures`.
PressHold pressHold(PressFit fit, const SnapFigures& figures);

/// The strain that a snap may have: put together once, or again and again; half of it where it
/// bends across its layers (common practice). None: a soft material gives way by design.
std::optional<double> permissibleStrain(const Material& material, bool often, bool acrossLayers);

}  // namespace swingroom
