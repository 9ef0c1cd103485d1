#pragma once

#include "app/viewport/floor_frame.h"
#include "app/viewport/strokes.h"

namespace swingroom {

/// Adds the print bed's lines: each 10 mm, a heavier one each 50 mm, fading out round what is
/// shown, where they would lie too close together, and when seen on edge. None from below.
void addFloorGrid(const FloorFrame& floor, const ViewBounds& bounds, const QColor& colour,
                  double pixelRatio, StrokeBatch& batch);

}  // namespace swingroom
