#pragma once

#include <memory>

#include "app/session/stages/stage_compare.h"
#include "app/viewport/paint/view_paint.h"

namespace swingroom {

/// How far each place of the stage that is in use moved, + outward: of the block's places, how far
/// the detail stands out over them.
std::shared_ptr<const PaintedSurface> paintOf(const ComparedStages& compared, bool ofDetail);

/// The largest change that a scale has to tell apart, mm, above 0.
double largestChangeMm(const ComparedStages& compared);

}  // namespace swingroom
