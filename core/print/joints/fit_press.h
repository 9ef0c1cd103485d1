#pragma once

#include "core/print/joints/fits.h"
#include "core/print/joints/press_fit.h"

namespace swingroom {

/// The fit as thick rings, with so much interference on the diameter, mm.
PressFit pressOf(const PrintSubject& subject, const FitFigure& fit, double interferenceMm);

}  // namespace swingroom
