#pragma once

#include <optional>

#include "app/viewport/painters/floor_frame.h"
#include "app/viewport/painters/strokes.h"

namespace swingroom {

/// Adds the print bed's lines: each 10 mm, a heavier one each 50 mm, fading out round what is
/// shown, where they would lie too close together, and when seen on edge. None from below.
void addFloorGrid(const FloorFrame& floor, const ViewBounds& bounds, const QColor& colour,
                  double pixelRatio, StrokeBatch& batch);

/// Distance of the finest of these lines that are well seen under the middle of what is shown, mm;
/// none from below, on edge and from too far.
std::optional<double> seenGridSpacingMm(const FloorFrame& floor, const ViewBounds& bounds,
                                        const ViewProjection& projection);

}  // namespace swingroom
