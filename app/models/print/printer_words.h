#pragma once

#include <QString>

#include "core/print/printed/printer_window.h"

/// On which printers it passes, in words.
namespace swingroom {

/// "Growth 0.02 to 0.14 mm a side, at full size"; what ends it, a line each; empty: no limit is
/// known, so that nothing can be said.
QString growthWords(const PrinterWindow& window);
/// "growth 0.02 to 0.14 mm", or that there is none; empty: nothing can be said.
QString growthSpanWords(const PrinterWindow& window);
/// "Scale 97.0 to 108.5 %, at 0.05 mm growth a side", and what ends it.
QString scaleWords(const PrinterWindow& window);

/// "0.05 mm a side at 100 %: within", for those who do not see the drawing.
QString printerPointWords(const PrinterWindow& window);

}  // namespace swingroom
