#pragma once

#include <vector>

#include "core/print/joints/fits.h"
#include "core/print/printed/printed_gaps.h"
#include "core/print/printed/printer_window.h"

namespace swingroom {

/// What every printer has to keep: pairs stay apart (as modelled, their gap times the scale less
/// both growths), pins and balls turn (each of four faces comes nearer by the growth) without
/// flopping, pressed pins stay pressed, the longest part fits the bed. Growth is taken as the same
/// on all faces; pairs and fits of a bought part are left out, for it neither grows nor scales.
std::vector<PrinterLimit> printerLimits(const PrintSubject& subject, const PrintedGaps& gaps,
                                        const FitsResult& fits);

/// The growth, the same on all four faces of a pin and its hole, that takes as much off a clearance
/// as the process's own figures do, mm a side.
double evenGrowthMm(const PrintProcess& process);

}  // namespace swingroom
