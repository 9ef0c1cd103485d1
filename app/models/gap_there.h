#pragma once

#include "app/models/curve_drawing.h"
#include "app/session/check/check_board.h"

namespace swingroom {

/// The gap that a curve is drawn with at an instant, mm, straight between its samples; negative in
/// overlap. None while there are no samples.
std::optional<double> drawnGapMm(const CurveDrawing& drawing, double instant);

/// The same in words: "1.20 mm deep", "1.80 mm or more", "0.34 mm".
QString drawnGapText(const CurveDrawing& drawing, double instant);

/// "gap there about 0.34 mm" of a pair in a way; empty where nothing is known of it yet. For
/// reading along the ribbon: what is proven is the bracket of the least gap.
QString gapThere(const CheckBoard& board, std::size_t way, PartId a, PartId b, double instant);

}  // namespace swingroom
