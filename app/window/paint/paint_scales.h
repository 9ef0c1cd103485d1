#pragma once

#include "app/panels/theme.h"
#include "app/viewport/paint/view_paint.h"

/// Scales of our own. Their lightness goes one way along a branch, so that they read without
/// colours too.
namespace swingroom {

/// From no room, deep, to `capMm` and more, near the ground: quiet where there is plenty.
PaintScale roomScale(const Theme& theme, double capMm);

/// How far a surface moved: outward (above 0) in green, inward in purple, with broken lines; pale
/// where it stayed. Both branches are as long.
/// @param reachMm  The largest change that is told apart, above 0; rounded up to a plain figure.
PaintScale movedScale(const Theme& theme, double reachMm);

/// Walls: below what prints held on two sides vermillion, from there to what prints free (if that
/// is more) orange, above it blue that fades to quiet; to `mostMm` and more.
PaintScale wallScale(const Theme& theme, double leastMm, double leastFreeMm, double mostMm);

/// The least of 1, 2, 5 times a power of ten that is not below, for figures above 0.
double plainFigureAbove(double mm);

}  // namespace swingroom
