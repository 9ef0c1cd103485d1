#pragma once

#include "app/models/curve_drawing.h"
#include "app/models/ribbon_row.h"
#include "app/models/way_line.h"
#include "app/session/check/check_board.h"

namespace swingroom {

/// The line of one of the scene's ways.
WayLine lineOf(const Scene& scene, std::size_t way);

/// How a way is called in the chooser: "stand up: tug to deckhand".
QString wayTitle(const Scene& scene, std::size_t way);

/// The rows of one way, worst first, from what is known now.
/// @param always  This pair has a row of its own whatever it is like.
/// @param only  Pairs of this part alone, the far and the waiting ones too; none: all.
Ribbon ribbonOf(const CheckBoard& board, std::size_t way,
                const std::optional<std::pair<PartId, PartId>>& always,
                const std::optional<PartId>& only = std::nullopt);

/// The gap curve of a pair in a way.
CurveDrawing curveOf(const CheckBoard& board, std::size_t way, std::size_t pair);

}  // namespace swingroom
